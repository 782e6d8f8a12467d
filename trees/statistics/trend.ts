import cdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Period } from './control-point.ts';

/** A period with the moment that it stands for, in any unit. */
export interface TimedPeriod extends Period {
  readonly at: number;
}

/** A straight line through shares. */
export interface Trend {
  /** How much the share rises in a unit of time; less than 0 where it falls. */
  readonly slope: number;
  /** How many standard deviations that is from none. */
  readonly deviations: number;
  /** The chance of one as steep, up or down, where there is none. */
  readonly chance: number;
}

/**
 * The test for a linear trend in shares (Cochran 1954, Biometrics 10:417-451; Armitage 1955, Biometrics 11:375-386), the moments
 * being the scores: slope sum r (t - mean t) / sum n (t - mean t)², its variance p (1 - p) / sum n (t - mean t)², two-sided by the normal
 * distribution. It finds a slow change that no period alone shows. Null where all periods are at one moment, or all or none of
 * their things have what is counted.
 */
export function trend(periods: readonly TimedPeriod[]): Trend | null {
  const of = sumOf(periods, (period) => period.of);
  const share = sumOf(periods, ({ count }) => count) / of;
  const middle = sumOf(periods, (period) => period.of * period.at) / of;
  const spread = sumOf(periods, (period) => period.of * (period.at - middle) ** 2);
  if (!(spread > 0) || share <= 0 || share >= 1) return null;
  const along = sumOf(periods, ({ count, of: n, at }) => (count - n * share) * (at - middle));
  const deviations = along / Math.sqrt(share * (1 - share) * spread);
  return { slope: along / spread, deviations, chance: 2 * cdf(-Math.abs(deviations), 0, 1) };
}

function sumOf(periods: readonly TimedPeriod[], ofPeriod: (period: TimedPeriod) => number): number {
  return periods.reduce((sum, period) => sum + ofPeriod(period), 0);
}
