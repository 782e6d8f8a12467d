import fc from 'fast-check';
import { expect, it } from 'vitest';
import { keepMends } from '../../app/editor/checks/keep-mends.ts';
import { checkTree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, mendOf, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { drawChanges } from '../support/random-changes.ts';

it('mends stay as they were while the checks are behind, and are those of the document once they are not', () => {
  let met = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
      const mendsOf = keepMends();
      let document = drawn as unknown as DraftDocument;
      let problems = checkTree(liveTree(document).tree);
      for (let edit = 0; edit <= edits; edit += 1) {
        const former = mendsOf(problems, document, false);
        const applied = applyChanges(document, drawChanges(draw, document));
        if (applied.ok) ({ document } = applied);
        expect(mendsOf(problems, document, true)).toBe(former);
        problems = checkTree(liveTree(document).tree);
        const now = mendsOf(problems, document, false);
        for (const problem of problems) expect(now.get(problem) ?? null).toEqual(mendOf(document, problem));
        met += now.size;
      }
    }),
    { numRuns: 60 },
  );
  expect(met).toBeGreaterThan(0);
});
