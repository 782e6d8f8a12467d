import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beliefOf, branchLikelihoods, compileFaultModel } from '../../trees/belief/index.ts';
import { referenceBelief, referenceBranches } from '../support/reference-belief.ts';
import { arbitraryCase } from './arbitrary-case.ts';

const RUNS = { numRuns: 400 };
const TOLERANCE = 1e-9;

test('beliefs equal those of the slow reference within 1e-9, on any tree, history and evidence', () => {
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history, symptom, answers, failed, evidence }) => {
      const expected = referenceBelief(tree, history, symptom, answers, failed);
      const { findings } = beliefOf(compileFaultModel(tree, history), symptom, evidence);
      expect(findings.map(({ finding }) => finding).toSorted()).toEqual([...expected.keys()].toSorted());
      for (const { finding, probability } of findings) {
        expect(Math.abs(probability - (expected.get(finding) ?? -1))).toBeLessThan(TOLERANCE);
      }
    }),
    RUNS,
  );
});

test('branch likelihoods equal those of the slow reference within 1e-9', () => {
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history, symptom, answers, failed, evidence }) => {
      const expected = referenceBelief(tree, history, symptom, answers, failed);
      const model = compileFaultModel(tree, history);
      const belief = beliefOf(model, symptom, evidence);
      for (const id of Object.keys(tree.tests)) {
        const branches = referenceBranches(tree, history, expected, id);
        for (const { result, probability } of branchLikelihoods(model, belief, id)) {
          expect(Math.abs(probability - (branches.get(result) ?? -1))).toBeLessThan(TOLERANCE);
        }
      }
    }),
    RUNS,
  );
});
