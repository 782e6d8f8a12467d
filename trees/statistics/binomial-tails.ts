import cdf from '@stdlib/stats-base-dists-binomial-cdf';

/**
 * P(X <= count) and P(X >= count) for `of` trials that each succeed with `chance`. The upper tail is taken as the lower
 * one of the failures, so that it keeps its digits where it is small. Of none both are 1.
 */
export function binomialTails(
  count: number,
  of: number,
  chance: number,
): { readonly atMost: number; readonly atLeast: number } {
  return { atMost: cdf(count, of, chance), atLeast: cdf(of - count, of, 1 - chance) };
}
