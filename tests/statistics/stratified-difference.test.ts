import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  sampleOf,
  stratifiedDifference,
  studentQuantile,
  type Stratum,
} from '../../trees/statistics/index.ts';

const minutes = fc.array(fc.double({ min: 0, max: 600, noNaN: true }), { minLength: 2, maxLength: 30 });

function stratumOf(done: readonly number[], notDone: readonly number[]): Stratum {
  const [a, b] = [sampleOf(done), sampleOf(notDone)];
  if (!a || !b) throw new Error('an empty sample');
  return { done: a, notDone: b };
}

describe('a sample', () => {
  it('has the mean and the variance of its values', () => {
    expect(sampleOf([2, 4, 4, 4, 5, 5, 7, 9])).toEqual({ count: 8, mean: 5, variance: 32 / 7 });
  });

  it('keeps its digits far from zero: the variance is the same a billion further on, to 1e-6', () => {
    const far = sampleOf([1e9 + 1, 1e9 + 2, 1e9 + 4]);
    expect(far?.variance).toBeCloseTo(sampleOf([1, 2, 4])?.variance ?? NaN, 6);
  });

  it('does not vary with a single value, and is none of none', () => {
    expect(sampleOf([3])).toEqual({ count: 1, mean: 3, variance: 0 });
    expect(sampleOf([])).toBeNull();
  });
});

describe('the difference by strata', () => {
  it('is that of the means times the number, with the interval of two samples, in one stratum', () => {
    // Means 10 and 14, variances 4 and 8: d = 4, its variance 4/3 + 8/3 = 4.
    const stratum = stratumOf([8, 10, 12], [14 - Math.sqrt(8), 14, 14 + Math.sqrt(8)]);
    const saved = stratifiedDifference([stratum], 'done');
    expect(saved?.count).toBe(3);
    expect(saved?.total).toBeCloseTo(12, 9);
    expect(saved?.error).toBeCloseTo(3 * 2, 9);
    // By Welch: 4² / ((4/3)²/2 + (8/3)²/2) = 18/5.
    expect(saved?.degrees).toBeCloseTo(3.6, 9);
    const reach = studentQuantile(3.6, 0.95) * 3 * 2;
    expect(saved?.high).toBeCloseTo(12 + reach, 9);
    expect(saved?.low).toBeCloseTo(12 - reach, 9);
  });

  it('does not take a difference between strata for one between the kinds', () => {
    // Slow work is mostly done one way and quick work the other, yet within each there is no difference.
    const slow = stratumOf([100, 100, 100], [100, 100]);
    const quick = stratumOf([10, 10], [10, 10, 10, 10]);
    expect(stratifiedDifference([slow, quick], 'done')).toMatchObject({ count: 5, total: 0 });
  });

  it('adds up over strata, whichever way it is counted, to 1e-6', () => {
    fc.assert(
      fc.property(
        minutes,
        minutes,
        minutes,
        minutes,
        fc.constantFrom('done', 'notDone'),
        (a, b, c, d, over) => {
          const [one, two] = [stratumOf(a, b), stratumOf(c, d)];
          const [both, first, second] = [[one, two], [one], [two]].map((strata) =>
            stratifiedDifference(strata, over),
          );
          expect(both?.count).toBe((first?.count ?? 0) + (second?.count ?? 0));
          expect(both?.total).toBeCloseTo((first?.total ?? NaN) + (second?.total ?? NaN), 6);
          expect(both?.error).toBeCloseTo(Math.hypot(first?.error ?? NaN, second?.error ?? NaN), 6);
          const least = Math.min(...[a, b, c, d].map(({ length }) => length - 1));
          expect(both?.degrees).toBeGreaterThanOrEqual(least - 1e-9);
          expect(both?.degrees).toBeLessThanOrEqual(a.length + b.length + c.length + d.length - 4 + 1e-9);
        },
      ),
    );
  });

  it('is none without a stratum', () => {
    expect(stratifiedDifference([], 'done')).toBeNull();
  });
});
