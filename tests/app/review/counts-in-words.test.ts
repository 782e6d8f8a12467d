import { describe, expect, it } from 'vitest';
import { savedWords } from '../../../app/review/words/advice-words.ts';
import { mayJudgeMonths } from '../../../app/review/words/enough.ts';
import { branchesWords } from '../../../app/review/words/tree-words.ts';
import { reviewOf, type Branch, type MonthPoint, type Review } from '../../../trees/review/index.ts';
import { factsOf } from '../../support/facts-of.ts';

const ALL = { from: null, to: null, tree: null, board: null, technician: null, window: 90 };
const NONE: Review = { ...reviewOf(factsOf([]), ALL, 0).figures, branches: [] };

describe('branches', () => {
  const branch = (result: string, more: Partial<Branch> = {}): Branch => ({
    ...{ tree: 'gull', symptom: 'dark', step: 'one', test: 'fuse', result, authored: 0.5, passed: 20 },
    ...{ took: 10, now: 0.5, low: null, high: null, chance: 1, corrected: 1, differs: false, ...more },
  });
  const words = (...branches: readonly Branch[]) => branchesWords({ ...NONE, branches });
  const untried = [branch('x', { passed: 0, took: 0 }), branch('y', { passed: 0, took: 0 })];

  it('are counted only where confirmed jobs came by, as the command counts them', () => {
    const [good, bad] = [branch('good', { differs: true }), branch('bad', { differs: true })];
    expect(words(good, branch('bad'), ...untried)).toBe(
      '1 of 2 branches that confirmed jobs came by differs from what its author expected by more than chance.',
    );
    expect(words(good, bad, ...untried)).toBe(
      '2 of 2 branches that confirmed jobs came by differ from what their author expected by more than chance.',
    );
    expect(words(branch('good'), branch('bad'), ...untried)).toBe(
      'None of 2 branches that confirmed jobs came by differs from what its author expected by more than chance.',
    );
    expect(words(branch('good', { passed: 19 }), ...untried)).toContain('but no step was passed by 20');
    expect(words(...untried)).toContain('No confirmed job here has passed a branch');
  });
});

describe('months', () => {
  const month: MonthPoint = {
    ...{ month: '2026-01', closed: 9, fixed: 8, rate: 8 / 9, low: 0.5, high: 1 },
    ...{ outOfControl: false, provisional: false },
  };
  const words = (judged: number, open = 1) =>
    mayJudgeMonths({
      ...NONE,
      centre: judged === 0 ? null : 0.8,
      byMonth: [
        ...Array<MonthPoint>(judged).fill(month),
        ...Array(open).fill({ ...month, provisional: true }),
      ],
    });

  it('are said to be too few in the number that there are of them', () => {
    expect(words(0)).toMatch(/, and there is none yet\.$/);
    expect(words(1)).toMatch(/, and there is only 1 such month so far\.$/);
    expect(words(3)).toMatch(/, and there are only 3 such months so far\.$/);
    expect(words(4)).toBeNull();
  });
});

describe('jobs with advice', () => {
  const words = (taken: number, notTaken: number) =>
    savedWords({ taken, notTaken, kinds: 0, saved: null, wouldSave: null });

  it('are one job or several', () => {
    expect(words(1, 12)).toContain('advice was taken in 1 confirmed job and not in 12, but');
    expect(words(2, 12)).toContain('advice was taken in 2 confirmed jobs and not in 12, but');
  });
});
