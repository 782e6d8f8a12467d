import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  beliefOf,
  branchLikelihoods,
  compileFaultModel,
  NO_EVIDENCE,
  NO_HISTORY,
} from '../../trees/belief/index.ts';
import { smallTree } from '../support/trees.ts';
import { arbitraryCase } from './arbitrary-case.ts';

test('before any test a step’s branches are as likely as the author’s weights, but for reliability and unlisted', () => {
  const model = compileFaultModel(smallTree(), NO_HISTORY);
  const belief = beliefOf(model, 'dark-screen', NO_EVIDENCE);
  const branches = branchLikelihoods(model, belief, 'supply-resistance');
  const share = 0.98 * 0.97 * 0.1 + 0.98 * 0.03 * 0.5 + 0.02 * 0.5;
  expect(branches.map(({ result }) => result)).toEqual(['clear', 'short']);
  expect(branches[1]?.probability).toBeCloseTo(share, 12);
});

test('a branch counts the confirmed jobs that gave its result, whatever the finding', () => {
  const history = {
    ...NO_HISTORY,
    results: {
      tone: {
        'speaker-open': { silent: 4, heard: 1 },
        'volume-down': { silent: 2 },
        gone: { silent: 9 },
        unlisted: { silent: 7 },
      },
    },
  };
  const model = compileFaultModel(smallTree(), history);
  const branches = branchLikelihoods(model, beliefOf(model, 'no-sound', NO_EVIDENCE), 'tone');
  expect(branches.map(({ result, jobs }) => [result, jobs])).toEqual([
    ['heard', 1],
    ['silent', 6],
  ]);
});

test('what closed jobs have shown moves a branch, weighed eight to one where the author has said what to expect', () => {
  const history = { ...NO_HISTORY, results: { tone: { 'speaker-open': { heard: 8 } } } };
  const row = (jobs: typeof history | typeof NO_HISTORY) => {
    const model = compileFaultModel(smallTree(), jobs);
    return model.test('tone').probability[model.row('speaker-open') * 2];
  };
  expect(row(NO_HISTORY)).toBeCloseTo(0.015, 12);
  expect(row(history)).toBeCloseTo((8 * 0.015 + 8) / 16, 12);
});

test('where the author has said nothing two jobs weigh as much as the even guess', () => {
  const history = { ...NO_HISTORY, results: { tone: { 'converter-low': { heard: 2, gone: 40 } } } };
  const model = compileFaultModel(smallTree(), history);
  expect(model.test('tone').probability[model.row('converter-low') * 2]).toBeCloseTo((2 * 0.5 + 2) / 4, 12);
});

test('results that a test no longer has are not counted', () => {
  const counted = { ...NO_HISTORY, results: { tone: { 'speaker-open': { gone: 40 } } } };
  const [before, after] = [NO_HISTORY, counted].map((history) =>
    Array.from(compileFaultModel(smallTree(), history).test('tone').probability),
  );
  expect(after).toEqual(before);
});

test('the branches of every test sum to one within 1e-9, and their average over results is the belief (1e-9)', () => {
  fc.assert(
    fc.property(arbitraryCase(), ({ tree, history, symptom, evidence }) => {
      const model = compileFaultModel(tree, history);
      const belief = beliefOf(model, symptom, evidence);
      const made = new Set(evidence.observations.map((observation) => observation.test));
      for (const id of Object.keys(tree.tests)) {
        const branches = branchLikelihoods(model, belief, id);
        expect(Math.abs(branches.reduce((sum, { probability }) => sum + probability, 0) - 1)).toBeLessThan(
          1e-9,
        );
        if (made.has(id) || belief.impossible) continue;
        const mean = new Map<string, number>();
        for (const { result, probability } of branches) {
          if (probability === 0) continue;
          const observations = [...evidence.observations, { test: id, weights: { [result]: 1 } }];
          for (const held of beliefOf(model, symptom, { ...evidence, observations }).findings) {
            mean.set(held.finding, (mean.get(held.finding) ?? 0) + probability * held.probability);
          }
        }
        for (const { finding, probability } of belief.findings) {
          expect(Math.abs((mean.get(finding) ?? 0) - probability)).toBeLessThan(1e-9);
        }
      }
    }),
  );
});
