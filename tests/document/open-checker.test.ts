import fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkTree, courseOf, flows, openChecker } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { freshTree } from '../support/fresh-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { smallDocument } from '../support/trees.ts';

it('a checker that remembers says after any edits what one that remembers nothing says', () => {
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
      const check = openChecker();
      let document = drawn as unknown as DraftDocument;
      for (let edit = 0; edit <= edits; edit += 1) {
        expect(check(liveTree(document).tree)).toEqual(checkTree(freshTree(liveTree(document).tree)));
        const applied = applyChanges(document, drawChanges(draw, document));
        if (applied.ok) ({ document } = applied);
      }
    }),
    { numRuns: 150 },
  );
});

it('paths are laid out anew only where an edit changes what they go by', () => {
  const document = smallDocument() as unknown as DraftDocument;
  const course = courseOf(liveTree(document).tree);
  const after = (path: readonly string[], value: string | number) => {
    const applied = applyChanges(document, [{ do: 'set', path, value }]);
    if (!applied.ok) throw new Error(applied.message);
    return liveTree(applied.document).tree;
  };
  expect(courseOf(after(['tests', 'tone', 'minutes'], 3))).toBe(course);
  expect(flows(after(['findings', 'panel-dead', 'title'], 'Panel'))).toBe(flows(liveTree(document).tree));
  const weighed = after(['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'good', 'weight'], 70);
  expect(courseOf(weighed)).not.toBe(course);
  expect(courseOf(weighed)).toEqual({ ...courseOf(freshTree(weighed)), lead: expect.any(Function) });
});
