import quantile from '@stdlib/stats-base-dists-beta-quantile';
import type { Interval } from './interval.ts';

/**
 * The exact interval of a share of which `count` of `of` were seen (Clopper & Pearson 1934, Biometrika 26:404-413; NIST/SEMATECH
 * e-Handbook 7.2.4.1): the shares that neither one-sided binomial test refuses, each at half of what is left over. Never too
 * narrow, which counts where there are few. Of none it is all of 0..1.
 */
export function exactInterval(count: number, of: number, confidence = 0.95): Interval {
  const beyond = (1 - confidence) / 2;
  // At none and at all the beta quantile is a plain root; taken so, it is exact.
  const low = count === 0 ? 0 : count === of ? beyond ** (1 / of) : quantile(beyond, count, of - count + 1);
  const high =
    count === of
      ? 1
      : count === 0
        ? -Math.expm1(Math.log(beyond) / of)
        : quantile(1 - beyond, count + 1, of - count);
  return { low, high };
}
