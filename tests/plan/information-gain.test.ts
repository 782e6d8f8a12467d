import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  beliefOf,
  compileFaultModel,
  NO_EVIDENCE,
  type Belief,
  type FaultModel,
} from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { informationGain } from '../../trees/plan/index.ts';
import { gainBits } from '../../trees/plan/information-gain.ts';
import { startPosition } from '../../trees/plan/position.ts';
import { problemOf } from '../../trees/plan/problem.ts';
import { arbitraryCase } from '../belief/arbitrary-case.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

const TOLERANCE = 1e-9;

test('is the mutual information of finding and result, never below nothing, never above either entropy, within 1e-9', () => {
  let told = 0;
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history, symptom, evidence }) => {
      const model = compileFaultModel(tree, history);
      const belief = beliefOf(model, symptom, evidence);
      for (const id of Object.keys(tree.tests)) {
        const { information, ofFinding, ofResult } = mutualInformation(model, belief, id);
        const gain = informationGain(model, belief, id);
        expect(Math.abs(gain - information)).toBeLessThanOrEqual(TOLERANCE);
        expect(gain).toBeGreaterThanOrEqual(-TOLERANCE);
        expect(gain).toBeLessThanOrEqual(Math.min(ofFinding, ofResult) + TOLERANCE);
        if (gain > 0.1) told += 1;
      }
    }),
  );
  expect(told).toBeGreaterThan(20);
});

test('is the same from the numbers that the planner works with, within 1e-9', () => {
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history, symptom }) => {
      const model = compileFaultModel(tree, history);
      const problem = problemOf({ model, goal: 'isolate', ...firstSituation(tree, symptom), rate: null });
      const { belief } = startPosition(problem);
      const known = beliefOf(model, symptom, NO_EVIDENCE);
      for (const numbers of problem.tests) {
        const difference = gainBits(numbers, belief) - informationGain(model, known, numbers.id);
        expect(Math.abs(difference)).toBeLessThanOrEqual(TOLERANCE);
      }
    }),
  );
});

test('of a test of which no finding expects anything is nothing, within 1e-12', () => {
  const document = smallDocument();
  const border = document.tests['border'];
  if (border === undefined) throw new Error('The small tree has lost its test.');
  const tree = treeOf({ ...document, tests: { ...document.tests, unexpected: border } });
  const model = compileFaultModel(tree, { findings: {}, results: {}, remedies: {} });
  for (const symptom of Object.keys(tree.symptoms)) {
    const belief = beliefOf(model, symptom, NO_EVIDENCE);
    expect(Math.abs(informationGain(model, belief, 'unexpected'))).toBeLessThanOrEqual(1e-12);
    expect(
      Math.max(...Object.keys(tree.tests).map((id) => informationGain(model, belief, id))),
    ).toBeGreaterThan(0.1);
  }
});

/** Bits, from the joint distribution written out: the sum of p(f, r) log2 of p(f, r) over p(f) p(r). */
function mutualInformation(model: FaultModel, belief: Belief, id: string) {
  const { results, probability } = model.test(id);
  const joint = belief.findings.map(({ finding, probability: share }) =>
    results.map((_, at) => share * (probability[model.row(finding) * results.length + at] ?? Number.NaN)),
  );
  const ofRow = joint.map((row) => row.reduce((sum, value) => sum + value, 0));
  const ofColumn = results.map((_, at) => joint.reduce((sum, row) => sum + (row[at] ?? 0), 0));
  let information = 0;
  joint.forEach((row, finding) =>
    row.forEach((value, result) => {
      if (value > 0)
        information += value * Math.log2(value / ((ofRow[finding] ?? 0) * (ofColumn[result] ?? 0)));
    }),
  );
  return { information, ofFinding: entropy(ofRow), ofResult: entropy(ofColumn) };
}

function entropy(shares: readonly number[]): number {
  return shares.reduce((sum, share) => sum - (share > 0 ? share * Math.log2(share) : 0), 0);
}
