import { expect, test } from 'vitest';
import {
  beliefOf,
  compileFaultModel,
  evidenceOf,
  NO_EVIDENCE,
  NO_HISTORY,
} from '../../trees/belief/index.ts';
import { smallTree } from '../support/trees.ts';
import { aJob, anAnswer, aReading, aRemedy } from './a-job.ts';

test('a chosen answer has all weight on its result', () => {
  const job = aJob({ answers: [anAnswer('border', 'partial')] });
  expect(evidenceOf(smallTree(), job).observations).toEqual([{ test: 'border', weights: { partial: 1 } }]);
});

test('a reading is spread over the bands by its own accuracy, half to each side of a limit it lies on', () => {
  const answer = anAnswer('rail-in', 'good', { reading: aReading(4.75) });
  const [observation] = evidenceOf(smallTree(), aJob({ answers: [answer] })).observations;
  expect(observation?.weights['low']).toBeCloseTo(0.5, 12);
  expect(observation?.weights['good']).toBeCloseTo(0.5, 12);
});

test('a ratio band is taken against the reading that the answer was held against', () => {
  const answer = anAnswer('rail-far', 'drop', { reading: aReading(4.5), reference: 5 });
  const [observation] = evidenceOf(smallTree(), aJob({ answers: [answer] })).observations;
  expect(observation?.weights['drop']).toBeGreaterThan(0.999);
});

test('a test passed over, and an answer that contradicts the standing one, are no evidence', () => {
  const job = aJob({
    skips: [{ test: 'border', as: 'none', reason: 'no panel' }],
    answers: [anAnswer('tone', 'heard')],
    contradiction: anAnswer('tone', 'silent'),
  });
  expect(evidenceOf(smallTree(), job)).toEqual({
    observations: [{ test: 'tone', weights: { heard: 1 } }],
    failed: [],
  });
});

test('only remedies that did not mend count against their findings', () => {
  const job = aJob({
    remedies: [
      aRemedy('panel-dead', 'not-mended'),
      aRemedy('joint-open', 'given-up'),
      aRemedy('ribbon-loose', 'proving'),
    ],
  });
  expect(evidenceOf(smallTree(), job).failed).toEqual(['panel-dead']);
});

test('a failed attempt at a cause outside the tree leaves every belief where it was', () => {
  const tree = smallTree();
  const model = compileFaultModel(tree, NO_HISTORY);
  const shown = evidenceOf(tree, aJob({ remedies: [aRemedy('unlisted', 'not-mended')] }));
  expect(beliefOf(model, 'dark-screen', shown)).toEqual(beliefOf(model, 'dark-screen', NO_EVIDENCE));
});
