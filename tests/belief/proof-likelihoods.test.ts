import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  beliefOf,
  branchLikelihoods,
  chosen,
  compileFaultModel,
  NO_HISTORY,
  proofLikelihoods,
} from '../../trees/belief/index.ts';
import { smallTree } from '../support/trees.ts';
import { aJob, anAnswer, aRemedy } from './a-job.ts';

const model = compileFaultModel(smallTree(), NO_HISTORY);
const LED = [anAnswer('tone', 'silent')];
const proving = (since: readonly ReturnType<typeof anAnswer>[] = [], finding = 'speaker-open') =>
  aJob({
    symptom: 'no-sound',
    answers: since,
    remedies: [aRemedy(finding, 'proving', LED)],
    era: 1,
  });
const led = beliefOf(model, 'no-sound', { observations: [chosen('tone', 'silent')], failed: [] });
const of = (finding: string): number =>
  led.findings.find((held) => held.finding === finding)?.probability ?? 0;

test('a test that proves a remedy is as likely to be sound as the unit is mended, else as what it still has makes it', () => {
  const likely = proofLikelihoods(model, proving(), 'tone') ?? [];
  const unmended = branchLikelihoods(model, led, 'tone');
  const { results, probability } = model.test('tone');
  const speaker = model.row('speaker-open') * results.length;
  // Mended by 0.95 of its probability: then it is heard at a reliability of 0.97, else a guess between two.
  const mended = 0.95 * of('speaker-open');
  const expected =
    mended * (0.97 + 0.03 / 2) + (unmended[0]?.probability ?? 0) - mended * (probability[speaker] ?? 0);
  expect(likely.map(({ result }) => result)).toEqual(['heard', 'silent']);
  expect(likely[0]?.probability).toBeCloseTo(expected, 12);
  expect(likely[0]?.probability).toBeGreaterThan((unmended[0]?.probability ?? 1) + 0.2);
});

test('a sound answer since the remedy makes it likelier that the next test is sound, a faulty one less likely', () => {
  const [good = '', bad = ''] = Object.keys(smallTree().tests['border']?.results ?? {});
  const sound = (...results: readonly string[]): number => {
    const job = aJob({
      answers: results.map((result) => anAnswer('border', result, { era: 1 })),
      remedies: [aRemedy('converter-low', 'proving', [anAnswer('rail-in', 'low')])],
      era: 1,
    });
    return (
      proofLikelihoods(model, job, 'rail-in')?.find(({ result }) => result === 'good')?.probability ?? -1
    );
  };
  expect(Object.keys(smallTree().tests['rail-in']?.results ?? {})[0]).toBe('good');
  expect(sound(good)).toBeGreaterThan(sound());
  expect(sound(bad)).toBeLessThan(sound());
});

test('where no remedy is being proved there are none of these', () => {
  expect(proofLikelihoods(model, aJob({ symptom: 'no-sound' }), 'tone')).toBeNull();
  const failed = aJob({
    symptom: 'no-sound',
    remedies: [aRemedy('speaker-open', 'not-mended', LED)],
    era: 1,
  });
  expect(proofLikelihoods(model, failed, 'tone')).toBeNull();
});

test('they sum to one for every finding, a cause outside the tree among them, and every test', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...model.findings),
      fc.constantFrom(...Object.keys(smallTree().tests)),
      (finding, asked) => {
        const likely = proofLikelihoods(model, proving([], finding), asked) ?? [];
        // To 1e-12.
        expect(likely.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
        expect(likely.every(({ probability }) => probability >= 0)).toBe(true);
      },
    ),
  );
});
