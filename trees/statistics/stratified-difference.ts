import type { Interval } from './interval.ts';
import { deviationsOf } from './deviations-of.ts';
import type { Sample } from './sample-of.ts';

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
}

/**
 * What doing something saves, stratum by stratum: the sum over strata of n d, d being the mean where it was not done less the
 * mean where it was, n the things it was done to (`over` 'done': what it saved) or not (what it would have saved). Its variance
 * is the sum of n² (s²/n of either kind), its interval normal (stratified difference of means with unequal variances: Cochran 1977,
 * Sampling Techniques, 5.3 and 5.6, without the finite-population factor). Null without a stratum.
 */
export function stratifiedDifference(
  strata: readonly Stratum[],
  over: keyof Stratum,
  confidence = 0.95,
): Difference | null {
  if (strata.length === 0) return null;
  let [count, total, variance] = [0, 0, 0];
  for (const stratum of strata) {
    const { done, notDone } = stratum;
    const n = stratum[over].count;
    count += n;
    total += n * (notDone.mean - done.mean);
    variance += n * n * (done.variance / done.count + notDone.variance / notDone.count);
  }
  const reach = deviationsOf(confidence) * Math.sqrt(variance);
  return { count, total, low: total - reach, high: total + reach };
}
