import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY, openFaultModels, type FaultModel } from '../../trees/belief/index.ts';
import { checkTree, type Tree } from '../../trees/document/index.ts';
import { applyChanges, liveTree, type DraftDocument } from '../../trees/edit/index.ts';
import { costTheSame, evaluate } from '../../trees/plan/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { drawChanges } from '../support/random-changes.ts';
import { smallDocument } from '../support/trees.ts';

const HISTORY = { ...NO_HISTORY, findings: { 'symptom-0': { 'finding-0': 2 } } };

it('models that keep tables have after any edits the tables of a model made anew', () => {
  let kept = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
      const modelOf = openFaultModels(HISTORY);
      let document = drawn as unknown as DraftDocument;
      let last: FaultModel | null = null;
      for (let edit = 0; edit <= edits; edit += 1) {
        const { tree } = liveTree(document);
        if (isSound(tree)) {
          const model = modelOf(tree);
          kept += Number(last?.prior === model.prior);
          last = model;
          expect(tablesOf(model)).toEqual(tablesOf(compileFaultModel(tree, HISTORY)));
        }
        const applied = applyChanges(document, drawChanges(draw, document));
        if (applied.ok) ({ document } = applied);
      }
    }),
    { numRuns: 150 },
  );
  expect(kept).toBeGreaterThan(20);
});

it('trees said to cost the same do, after any edit', () => {
  let same = 0;
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), (drawn, draw) => {
      const document = drawn as unknown as DraftDocument;
      const modelOf = openFaultModels(HISTORY);
      const applied = applyChanges(document, drawChanges(draw, document));
      if (!applied.ok) return;
      const [one, other] = [liveTree(document).tree, liveTree(applied.document).tree];
      if (!isSound(one) || !isSound(other)) return;
      const [before, after] = [modelOf(one), modelOf(other)];
      if (before.prior !== after.prior || !costTheSame(one, other)) return;
      same += 1;
      const [symptom = ''] = Object.keys(one.symptoms);
      const cost = (model: FaultModel) => evaluate({ model, symptom, goal: 'isolate', rate: 60 });
      expect(cost(after)).toEqual(cost(before));
    }),
    { numRuns: 150 },
  );
  expect(same).toBeGreaterThan(20);
});

it.each<readonly [string, readonly (string | number)[], number | string, boolean]>([
  ['a text', ['tests', 'tone', 'ask'], 'Listen.', true],
  ['a reason of an interlock', ['interlocks', 0, 'because'], 'Other.', true],
  ['minutes of a test', ['tests', 'tone', 'minutes'], 9, false],
  ['minutes of a changeover', ['bench', 'power', 'changes', 0, 'minutes'], 9, false],
  ['minutes of a remedy', ['findings', 'panel-dead', 'remedy', 'minutes'], 9, false],
  ['a weight', ['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'good', 'weight'], 70, false],
])('with %s changed, a tree is held to cost the same only if nothing that costs has changed', (...given) => {
  const [, path, value, same] = given;
  const document = smallDocument() as unknown as DraftDocument;
  const applied = applyChanges(document, [{ do: 'set', path, value }]);
  if (!applied.ok) throw new Error(applied.message);
  expect(costTheSame(liveTree(document).tree, liveTree(applied.document).tree)).toBe(same);
});

function isSound(tree: Tree): boolean {
  return checkTree(tree).every(({ severity }) => severity === 'warning');
}

function tablesOf({ tree, findings, prior, test, fixRate }: FaultModel): unknown {
  return [Object.keys(tree.symptoms).map(prior), Object.keys(tree.tests).map(test), findings.map(fixRate)];
}
