import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  checkTree,
  courseOf,
  flows,
  openChecker,
  type Flows,
  type Tree,
} from '../../trees/document/index.ts';
import { passingTo } from '../../trees/document/passing.ts';
import { passingToAll } from '../../trees/document/passing-shares.ts';
import { branchesOf } from '../../trees/document/ways.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryDocument, arbitraryTree } from '../support/arbitrary-tree.ts';
import { freshTree } from '../support/fresh-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { drawWeight } from '../support/random-weight.ts';

it('a tree in which weights have changed has the course, flows and checks of one that was never seen before', () => {
  let kept = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
      const check = openChecker();
      let document = drawn as unknown as DraftDocument;
      let order: readonly number[] | null = null;
      for (let edit = 0; edit <= edits; edit += 1) {
        const { tree } = liveTree(document);
        const anew = freshTree(tree);
        expect(check(tree)).toEqual(checkTree(anew));
        expect(courseOf(tree)).toEqual({ ...courseOf(anew), lead: expect.any(Function) });
        expect(figuresOf(flows(tree), tree)).toEqual(figuresOf(flows(anew), anew));
        kept += Number(courseOf(tree).order === order);
        ({ order } = courseOf(tree));
        const changes = draw(fc.nat, { max: 3 }) === 0 ? drawChanges(draw, document) : drawWeight(draw, tree);
        const applied = applyChanges(document, changes);
        if (applied.ok) ({ document } = applied);
      }
    }),
    { numRuns: 150 },
  );
  // Else nothing would have been kept that could have been wrong.
  expect(kept).toBeGreaterThan(100);
});

it('adds up the flows to all findings at once as to each by itself, to the last digit', () => {
  fc.assert(
    fc.property(arbitraryTree(), (tree) => {
      const course = courseOf(tree);
      const branches = branchesOf(course);
      const all = passingToAll(course, branches);
      for (const [finding, row] of branches.findings)
        expect(all.slice(row * branches.slots, (row + 1) * branches.slots)).toEqual(
          passingTo(course, finding),
        );
    }),
  );
});

/** All that the flows say, with undefined for what nothing is known of. */
function figuresOf({ arriving, passing, sharesAt }: Flows, tree: Tree): unknown {
  const shares = Object.entries(tree.tests).map(([test, { results }]) =>
    [...Object.keys(tree.findings).keys()].map((finding) => {
      const into = new Float64Array(Object.keys(results).length);
      return sharesAt(test)(into, finding) ? into : undefined;
    }),
  );
  return { arriving, passing, shares };
}
