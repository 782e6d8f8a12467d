import { expect, test } from 'vitest';
import { calibrationGist, calibrationWords } from '../../../app/review/words/tree-words.ts';
import { reviewOf, type Calibration, type CalibrationBin, type Review } from '../../../trees/review/index.ts';
import { rateOf } from '../../../trees/statistics/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const ALL = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NONE: Review = { ...reviewOf(factsOf([]), ALL, 0).figures, branches: [] };

function bin(tenth: number, confirmed: number, count: number): CalibrationBin {
  const { share, low, high } = rateOf(confirmed, count);
  const [from, to, forecast] = [tenth / 10, (tenth + 1) / 10, tenth / 10 + 0.05];
  return { from, to, jobs: count, count, confirmed, forecast, observed: share, low, high };
}

function scored(...bins: readonly CalibrationBin[]): Calibration {
  const score = { brier: 0.1, reliability: 0.01, resolution: 0.05, uncertainty: 0.14 };
  return { ...score, jobs: 400, percentages: 2000, bins };
}

test('tenths that came true less or more often than was said are told where that is more than chance', () => {
  expect(calibrationWords(scored(bin(9, 850, 1000), bin(5, 110, 200), bin(1, 260, 1000)))).toBe(
    'Less often than was said came true 95\u202f% (85\u202f% did); more often than was said came true 15\u202f% (26\u202f% did): more than chance, all tenths looked at together.',
  );
  expect(calibrationWords(scored(bin(1, 260, 1000)))).toMatch(/^More often than was said/);
});

test('a difference that chance may well make is not told', () => {
  expect(calibrationWords(scored(bin(9, 18, 20), bin(5, 11, 20)))).toContain('No tenth of the percentages');
});

test('the gist is that the bench is too sure, or not sure enough, of what it calls likely, and nothing of few jobs', () => {
  const gist = (calibration: Calibration) => calibrationGist({ ...NONE, jobs: 400, calibration });
  expect(gist(scored(bin(9, 850, 1000)))).toBe('the bench is too sure');
  expect(gist(scored(bin(6, 850, 1000)))).toBe('the bench is not sure enough');
  expect(gist(scored(bin(1, 260, 1000)))).toBeNull();
  expect(gist({ ...scored(bin(9, 850, 1000)), jobs: 40 })).toBeNull();
});
