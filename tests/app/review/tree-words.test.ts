import { expect, test } from 'vitest';
import { calibrationMissing } from '../../../app/review/words/tree-words.ts';
import type { Calibration } from '../../../trees/review/index.ts';

const SCORE = { brier: 0.1, reliability: 0.01, resolution: 0.05, uncertainty: 0.14, bins: [] };

function missing(jobs: number, percentages: number): string | null {
  const calibration: Calibration = { ...SCORE, jobs, percentages };
  return calibrationMissing(calibration, 400);
}

test('the score is called too few to say below a hundred percentages, its reliability part below three hundred jobs', () => {
  expect(missing(0, 0)).toContain('None of the 400 closed jobs has percentages on record');
  expect(missing(17, 99)).toContain('from 100 on the score starts to mean something');
  expect(missing(17, 100)).toContain('reliability part');
  expect(missing(299, 1500)).toContain('there are 299');
  expect(missing(300, 1500)).toBeNull();
});
