import fc from 'fast-check';
import { expect, it } from 'vitest';
import { branchesTo, pointerOfGo } from '../../app/editor/form/words/uses.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { drawChanges } from '../support/random-changes.ts';

it('what leads to a part is every branch whose way on names it, whatever the draft', () => {
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), (drawn, draw) => {
      const document = drawn as unknown as DraftDocument;
      const applied = applyChanges(document, drawChanges(draw, document));
      const { tree } = liveTree(applied.ok ? applied.document : document);
      const leads = Object.entries(tree.symptoms).flatMap(([symptom, { steps }]) =>
        Object.entries(steps).flatMap(([step, { then }]) =>
          Object.entries(then).map(([result, { go }]) => ({
            at: `/symptoms/${symptom}/steps/${step}/then/${result}`,
            to: pointerOfGo(go, symptom),
          })),
        ),
      );
      for (const place of new Set(leads.map(({ to }) => to)))
        expect(branchesTo(tree, place).map(({ at }) => at)).toEqual(
          leads.filter(({ to }) => to === place).map(({ at }) => at),
        );
    }),
  );
});
