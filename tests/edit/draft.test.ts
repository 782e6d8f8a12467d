import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  applyChanges,
  applyEntry,
  openDraft,
  replayDraft,
  textOf,
  type Draft,
  type DraftDocument,
  type DraftEntry,
} from '../../trees/edit/index.ts';
import { smallDocument } from '../support/trees.ts';
import { drawChanges, seeds } from './arbitrary-edits.ts';

const BASE = `${JSON.stringify(smallDocument(), null, 1)}\n\n`;

function opened(text = BASE): Draft {
  const draft = openDraft(text);
  if (!draft.ok) throw new Error(draft.message);
  return draft.draft;
}

function after(draft: Draft, entry: DraftEntry): Draft {
  const next = applyEntry(draft, entry);
  if (!next.ok) throw new Error(next.message);
  return next.draft;
}

const edit = (draft: Draft, drawn: readonly number[], joins = false): DraftEntry | null => {
  const changes = drawChanges(draft.document, drawn);
  return changes.length === 0
    ? null
    : { kind: 'edit', what: 'Drawn', changes, ...(joins && { joins: true as const }) };
};

describe('changes', () => {
  it('are taken back exactly by their inverse, the order of keys included', () => {
    fc.assert(
      fc.property(seeds(12), (drawn) => {
        const document = smallDocument() as unknown as DraftDocument;
        const applied = applyChanges(document, drawChanges(document, drawn));
        if (!applied.ok) throw new Error(applied.message);
        const back = applyChanges(applied.document, applied.inverse);
        expect(back.ok && JSON.stringify(back.document)).toBe(JSON.stringify(document));
      }),
      { numRuns: 500 },
    );
  });

  it('leave what they do not touch as the same objects', () => {
    const document = smallDocument() as unknown as DraftDocument;
    const applied = applyChanges(document, [{ do: 'set', path: ['tests', 'tone', 'minutes'], value: 3 }]);
    if (!applied.ok) throw new Error(applied.message);
    expect(applied.document.findings).toBe(document.findings);
    expect(applied.document.tests).not.toBe(document.tests);
  });

  it('are refused where their place is not there, with the place', () => {
    const document = smallDocument() as unknown as DraftDocument;
    const applied = applyChanges(document, [
      { do: 'set', path: ['title'], value: 'Other' },
      { do: 'remove', path: ['tests', 'nowhere', 'title'] },
    ]);
    expect(applied).toEqual({ ok: false, at: 1, message: 'Nothing can be changed at /tests/nowhere/title.' });
  });

  it('take nothing from an object’s prototype', () => {
    const applied = applyChanges({ tests: {} }, [{ do: 'set', path: ['__proto__', 'x'], value: 1 }]);
    expect(applied.ok).toBe(false);
    const set = applyChanges({ tests: {} }, [{ do: 'insert', path: ['__proto__'], at: 0, value: { x: 1 } }]);
    expect(set.ok && Object.getPrototypeOf(set.document)).toBe(Object.prototype);
  });
});

describe('a draft', () => {
  it('gives back the same bytes after any edits, undos and redos, once all is undone', () => {
    const acts = fc.array(fc.oneof(seeds(4), fc.constantFrom('undo' as const, 'redo' as const)), {
      maxLength: 30,
    });
    fc.assert(
      fc.property(acts, (list) => {
        let draft = opened();
        const texts: string[] = [];
        for (const act of list) {
          const entry = typeof act === 'string' ? ({ kind: act } as const) : edit(draft, act);
          if (entry === null) continue;
          const next = applyEntry(draft, entry);
          if (!next.ok) {
            expect(typeof act).toBe('string');
            continue;
          }
          if (entry.kind === 'edit') texts.splice(draft.undo?.size ?? 0, Infinity, textOf(draft));
          draft = next.draft;
          // Every undo leads to just the text that there was before the edit it takes back.
          if (entry.kind === 'undo') expect(textOf(draft)).toBe(texts[draft.undo?.size ?? 0]);
        }
        while (draft.undo !== null) draft = after(draft, { kind: 'undo' });
        expect(textOf(draft)).toBe(BASE);
      }),
      { numRuns: 300 },
    );
  });

  it('is the same when its entries are replayed', () => {
    const acts = fc.array(fc.oneof(seeds(4), fc.constantFrom('undo' as const, 'redo' as const)), {
      maxLength: 30,
    });
    fc.assert(
      fc.property(acts, (list) => {
        let draft = opened();
        const entries: DraftEntry[] = [];
        for (const act of list) {
          const entry = typeof act === 'string' ? ({ kind: act } as const) : edit(draft, act, act.length > 2);
          const next = entry === null ? null : applyEntry(draft, entry);
          if (entry === null || next === null || !next.ok) continue;
          draft = next.draft;
          entries.push(entry);
        }
        const replayed = replayDraft(BASE, entries);
        expect(replayed.ok && textOf(replayed.draft)).toBe(textOf(draft));
        expect(replayed.ok && replayed.draft.redo?.size).toBe(draft.redo?.size);
      }),
      { numRuns: 200 },
    );
  });

  it('undoes joined edits together', () => {
    const typed = (value: string, joins?: true): DraftEntry => ({
      kind: 'edit',
      what: 'Title',
      changes: [{ do: 'set', path: ['title'], value }],
      ...(joins && { joins }),
    });
    const draft = after(after(opened(), typed('S')), typed('Sm', true));
    expect(draft.undo?.size).toBe(1);
    const back = after(draft, { kind: 'undo' });
    expect(back.document.title).toBe('Small unit');
    expect(after(back, { kind: 'redo' }).document.title).toBe('Sm');
  });

  it('keeps the base’s own bytes, however they are laid out, until something is changed', () => {
    expect(textOf(opened())).toBe(BASE);
  });

  it('says which entry cannot be made', () => {
    const replayed = replayDraft(BASE, [{ kind: 'undo' }]);
    expect(replayed).toEqual({ ok: false, at: 0, message: 'There is nothing to undo.' });
    expect(replayDraft('[]', []).ok).toBe(false);
    expect(replayDraft('{', []).ok).toBe(false);
  });
});
