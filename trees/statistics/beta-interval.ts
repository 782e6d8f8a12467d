import quantile from '@stdlib/stats-base-dists-beta-quantile';
import type { Interval } from './interval.ts';

/** What is known of a share: its mean and standard deviation, and the interval that it lies in with the confidence asked for. */
export interface BetaInterval extends Interval {
  readonly mean: number;
  readonly deviation: number;
}

/**
 * Mean, standard deviation and central credible interval of the beta distribution with pseudo-counts `yes` and `no` (both
 * above 0). After `count` of `of` on a uniform prior they are 1 + count and 1 + of - count (Gelman et al., Bayesian Data
 * Analysis, 2.4 and appendix A). How likely a branch of a tree is hangs on many Dirichlets at once, so that its interval is
 * drawn; where one test under one finding decides, the draws are held to this.
 */
export function betaInterval(yes: number, no: number, confidence = 0.95): BetaInterval {
  const sum = yes + no;
  const beyond = (1 - confidence) / 2;
  return {
    mean: yes / sum,
    deviation: Math.sqrt((yes * no) / (sum * sum * (sum + 1))),
    low: quantile(beyond, yes, no),
    high: quantile(1 - beyond, yes, no),
  };
}
