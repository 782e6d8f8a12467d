import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlineRows, HEADINGS } from '../../app/editor/outline/outline-rows.ts';
import { pointerOf, type Symptom, type Tree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryDocument, arbitraryTree } from '../support/arbitrary-tree.ts';
import { forgetNumbers } from './drawing/forget-numbers.ts';
import { freshTree } from '../support/fresh-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { smallTree } from '../support/trees.ts';

/** Everything that can be unfolded. */
function everything(tree: Tree): ReadonlySet<string> {
  return new Set([
    ...Object.keys(HEADINGS).map((heading) => `#${heading}`),
    ...Object.entries(tree.symptoms).flatMap(([symptom, { steps }]) => [
      pointerOf(['symptoms', symptom]),
      ...Object.keys(steps).map((step) => pointerOf(['symptoms', symptom, 'steps', step])),
    ]),
  ]);
}

describe('the outline', () => {
  it('has a line for every part of any tree, once', () => {
    fc.assert(
      fc.property(arbitraryTree(), (tree) => {
        const ids = outlineRows(tree, everything(tree)).map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        const parts = [
          '',
          ...Object.keys(tree.tests).map((id) => pointerOf(['tests', id])),
          ...Object.keys(tree.findings).map((id) => pointerOf(['findings', id])),
          ...Object.keys(tree.bench).map((id) => pointerOf(['bench', id])),
          ...[...tree.interlocks.keys()].map((index) => pointerOf(['interlocks', index])),
          ...Object.entries(tree.symptoms).flatMap(([symptom, { steps }]) => [
            pointerOf(['symptoms', symptom]),
            ...Object.entries(steps).flatMap(([step, { then }]) => [
              pointerOf(['symptoms', symptom, 'steps', step]),
              ...Object.keys(then).map((result) =>
                pointerOf(['symptoms', symptom, 'steps', step, 'then', result]),
              ),
            ]),
          ]),
        ];
        expect(ids.filter((id) => !id.startsWith('#')).sort()).toEqual(parts.sort());
      }),
      { numRuns: 100 },
    );
  });

  it('shows after any edits what it shows of a tree that was never seen before', () => {
    fc.assert(
      fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
        let document = drawn as unknown as DraftDocument;
        for (let edit = 0; edit <= edits; edit += 1) {
          const { tree } = liveTree(document);
          const shown = outlineRows(tree, everything(tree));
          forgetNumbers();
          expect(shown).toEqual(outlineRows(freshTree(tree), everything(tree)));
          const applied = applyChanges(document, drawChanges(draw, document));
          if (applied.ok) ({ document } = applied);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('counts each line among its brothers', () => {
    const rows = outlineRows(smallTree(), everything(smallTree()));
    for (const { place, of, level } of rows) {
      expect(place).toBeGreaterThanOrEqual(1);
      expect(place).toBeLessThanOrEqual(of);
      expect(level).toBeLessThanOrEqual(4);
    }
    expect(rows.filter(({ level }) => level === 1).map(({ of }) => of)).toEqual(Array<number>(6).fill(6));
  });

  it('says of a branch where it leads, and of a result without one that it leads nowhere', () => {
    const tree = smallTree();
    const open = structuredCloneOf(tree);
    const path: Pick<Symptom, 'first' | 'steps'> = open.symptoms['dark-screen'] ?? { steps: {} };
    const { first = '', steps } = path;
    const [result = ''] = Object.keys(steps[first]?.then ?? {});
    delete (steps[first]?.then as Record<string, unknown>)[result];
    const rows = outlineRows(open, everything(open));
    const branches = rows.filter(({ kind }) => kind === 'branch');
    expect(branches.filter(({ go }) => go === undefined).map(({ id }) => id)).toEqual([
      pointerOf(['symptoms', 'dark-screen', 'steps', first, 'then', result]),
    ]);
    expect(branches.find(({ go }) => go === undefined)?.words).toContain('leads nowhere yet');
    expect(branches.some(({ words }) => /: finding /.test(words))).toBe(true);
  });

  it('shows under a folded line nothing', () => {
    expect(outlineRows(smallTree(), new Set())).toHaveLength(6);
  });
});

function structuredCloneOf(tree: Tree): Tree {
  return JSON.parse(JSON.stringify(tree)) as Tree;
}
