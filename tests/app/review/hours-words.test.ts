import { describe, expect, it } from 'vitest';
import { halfWords, middleOf } from '../../../app/review/words/hours-words.ts';
import { halfWords as halfOnSheet } from '../../../app/review/sheet/sheet-words.ts';
import type { Spread } from '../../../trees/review/index.ts';

const spread = (jobs: number): Spread => ({
  ...{ jobs, mean: 9, lower: 6.4, median: 8, upper: 17, error: null },
});

describe('how long jobs take', () => {
  it('is told of a half of them only where there are four or more', () => {
    expect(halfWords(null)).toBe('');
    expect(halfWords(spread(1))).toBe('');
    expect(halfWords(spread(3))).toBe('');
    expect(halfWords(spread(4))).toBe('Half of the jobs came to the finding in 6.4 to 17 min.');
    expect(halfOnSheet(spread(1))).toBe('of 1 job');
    expect(halfOnSheet(spread(3))).toBe('of 3 jobs');
    expect(halfOnSheet(spread(4))).toBe('half of 4 jobs: 6.4 min to 17 min');
  });

  it('is told of the middle job, of one job as the one there is', () => {
    expect(middleOf(spread(1))).toBe('the one job there is');
    expect(middleOf(spread(1204))).toBe('the middle one of 1,204 jobs');
  });
});
