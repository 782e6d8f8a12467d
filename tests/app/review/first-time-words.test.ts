import { expect, test } from 'vitest';
import { lineWords, trendWords } from '../../../app/review/words/first-time-words.ts';
import type { MonthPoint, Review } from '../../../trees/review/index.ts';
import { reviewOf } from '../../../trees/review/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const ALL = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NONE: Review = { ...reviewOf(factsOf([]), ALL, 0).figures, branches: [] };

function monthOf(month: string, more: Partial<MonthPoint> = {}): MonthPoint {
  const limits = { low: 0.68, high: 0.92, outOfControl: false, provisional: false };
  return { month, closed: 100, fixed: 80, rate: 0.8, ...limits, ...more };
}

const MONTHS = ['2025-01', '2025-02', '2025-03', '2025-04'].map((month) => monthOf(month));
const LINE = { months: 4, perMonth: -0.0123, deviations: -3, chance: 0.0026, differs: true };

test.each([
  [LINE, 'Getting worse: it falls by 1.2 points a month over 4 months, more than chance (p 0.003).'],
  [
    { ...LINE, perMonth: 0.0004 },
    'Getting better: it rises by 0.04 points a month over 4 months, more than chance (p 0.003).',
  ],
  [
    { ...LINE, chance: 0.4, differs: false },
    'Neither better nor worse by more than chance over 4 months (p 0.40).',
  ],
  [
    { ...LINE, chance: 0.004, differs: false },
    'Perhaps getting worse over 4 months (p 0.004), but not surely: for what is looked at month after month only p below 0.003 is called more than chance.',
  ],
  [null, null],
])('a line of months says which way it goes only where that is more than chance (%#)', (trend, words) => {
  expect(lineWords({ ...NONE, trend })).toBe(words);
});

test('a month that stands out is told beside the line, and one that may still change where it is below already', () => {
  const fallen = monthOf('2025-06', { fixed: 40, rate: 0.4, outOfControl: true, provisional: true });
  const words = trendWords({ ...NONE, centre: 0.8, trend: LINE, byMonth: [...MONTHS, fallen] });
  expect(words).toContain('Getting worse');
  expect(words).toContain('Out of control, so more than chance: June 2025');
});

test('of three months nothing is said of where they go', () => {
  const words = trendWords({ ...NONE, centre: 0.8, trend: LINE, byMonth: MONTHS.slice(0, 3) });
  expect(words).toContain('cannot be said');
  expect(words).not.toContain('Getting');
});
