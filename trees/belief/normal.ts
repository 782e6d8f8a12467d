import cdf from '@stdlib/stats-base-dists-normal-cdf';

/**
 * The probability that a normal variable of mean `mean` and standard deviation `deviation` (> 0) lies between two limits,
 * either of which may be infinite. Taken in the lower tail on whichever side of the mean the limits stand, so that a band
 * far out keeps its digits: a difference of two values near one would lose them.
 */
export function normalBetween(mean: number, deviation: number, from: number, to: number): number {
  const low = (from - mean) / deviation;
  const high = (to - mean) / deviation;
  return low > 0 ? cdf(-low, 0, 1) - cdf(-high, 0, 1) : cdf(high, 0, 1) - cdf(low, 0, 1);
}
