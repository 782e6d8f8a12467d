import type { Interval } from './interval.ts';
import type { Sample } from './sample-of.ts';
import { studentQuantile } from './student-quantile.ts';

/** Things alike but for whether something was done to them, at least two of each kind. */
export interface Stratum {
  readonly done: Sample;
  readonly notDone: Sample;
}

/** What was or would have been saved in all, in the unit of the values, with its interval. */
export interface Difference extends Interval {
  /** Things that it was or would have been saved on. */
  readonly count: number;
  readonly total: number;
  /** Standard error of `total`, and the degrees of freedom that it is known with. */
  readonly error: number;
  readonly degrees: number;
}

/**
 * What doing something saves, stratum by stratum: the sum over strata of n d, d being the mean where it was not done less the
 * mean where it was, n the things it was done to (`over` 'done': what it saved) or not (what it would have saved). Its variance
 * is the sum of n² (s²/n of either kind) (stratified difference of means with unequal variances: Cochran 1977, Sampling Techniques,
 * 5.3 and 5.6, without the finite-population factor), its interval that of Student's t with the degrees of freedom by Satterthwaite
 * (1946, Biometrics Bulletin 2:110-114) and Welch (1947, Biometrika 34:28-35): the square of the variance over the sum of its parts'
 * squares, each over its n - 1; where nothing varies, all that there are. Null without a stratum.
 */
export function stratifiedDifference(
  strata: readonly Stratum[],
  over: keyof Stratum,
  confidence = 0.95,
): Difference | null {
  if (strata.length === 0) return null;
  let [count, total, variance, squares, free] = [0, 0, 0, 0, 0];
  for (const stratum of strata) {
    const { done, notDone } = stratum;
    const n = stratum[over].count;
    count += n;
    total += n * (notDone.mean - done.mean);
    for (const sample of [done, notDone]) {
      const part = n * n * (sample.variance / sample.count);
      variance += part;
      squares += part ** 2 / (sample.count - 1);
      free += sample.count - 1;
    }
  }
  const error = Math.sqrt(variance);
  const degrees = squares > 0 ? variance ** 2 / squares : free;
  const reach = error === 0 ? 0 : studentQuantile(degrees, confidence) * error;
  return { count, total, error, degrees, low: total - reach, high: total + reach };
}
