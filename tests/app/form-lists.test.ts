import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withAncestors } from '../../app/editor/form/focus-place.ts';
import { changesToMove, changesToRemove, keyedMove } from '../../app/editor/form/parts/moved.ts';
import { applyChanges, at, type DraftDocument } from '../../trees/edit/index.ts';

const NO_KEYS = { altKey: false, ctrlKey: false, metaKey: false, shiftKey: false };
const ALT = { ...NO_KEYS, altKey: true };

function applied(document: DraftDocument, changes: Parameters<typeof applyChanges>[1]): DraftDocument {
  const made = applyChanges(document, changes);
  if (!made.ok) throw new Error(made.message);
  return made.document;
}

describe('the entries of a list in a form', () => {
  it('move by Alt and an arrow key, not past the ends, and by no other keys', () => {
    expect(keyedMove({ ...ALT, key: 'ArrowUp' }, 2, 3)).toBe(1);
    expect(keyedMove({ ...ALT, key: 'ArrowDown' }, 0, 3)).toBe(1);
    expect(keyedMove({ ...ALT, key: 'ArrowUp' }, 0, 3)).toBe(0);
    expect(keyedMove({ ...ALT, key: 'ArrowDown' }, 2, 3)).toBe(2);
    expect(keyedMove({ ...NO_KEYS, key: 'ArrowUp' }, 2, 3)).toBeNull();
    expect(keyedMove({ ...ALT, ctrlKey: true, key: 'ArrowUp' }, 2, 3)).toBeNull();
    expect(keyedMove({ ...ALT, key: 'a' }, 2, 3)).toBeNull();
  });

  it('keep their order but for the one moved, which stands where it was put', () => {
    const list = fc.uniqueArray(fc.string(), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(list, fc.nat(), fc.nat(), (texts, a, b) => {
        const [from, to] = [a % texts.length, b % texts.length];
        const moved = at(applied({ steps: texts }, changesToMove(['steps'], from, to)), ['steps']);
        const others = texts.filter((_, index) => index !== from);
        expect(moved).toEqual(others.toSpliced(to, 0, texts[from] ?? ''));
      }),
    );
  });

  it('of a record move by their key', () => {
    const document = { results: { good: 1, low: 2, high: 3 } };
    const moved = applied(document, changesToMove(['results'], 'high', 0));
    expect(Object.keys(at(moved, ['results']) ?? {})).toEqual(['high', 'good', 'low']);
  });

  it('are taken out one by one, the list going with the last', () => {
    const one = applied({ cautions: ['a', 'b'] }, changesToRemove({ cautions: ['a', 'b'] }, ['cautions'], 0));
    expect(one).toEqual({ cautions: ['b'] });
    expect(applied(one, changesToRemove(one, ['cautions'], 0))).toEqual({});
  });
});

describe('a place in a form', () => {
  it('is looked for at its pointer first, then at what it is in, inmost first', () => {
    expect(withAncestors('/tests/rail/results/low')).toEqual([
      '/tests/rail/results/low',
      '/tests/rail/results',
      '/tests/rail',
      '/tests',
    ]);
    expect(withAncestors('')).toEqual([]);
  });
});
