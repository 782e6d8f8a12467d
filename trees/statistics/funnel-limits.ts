import { binomial } from './binomial.ts';
import type { Discrete } from './discrete.ts';
import type { Interval } from './interval.ts';

/** Between which shares 95 % and 99.8 % of those who do as well as the target would lie. */
export interface FunnelLimits {
  readonly within95: Interval;
  readonly within998: Interval;
}

/**
 * A funnel plot's control limits about `target` for `of` things: the exact binomial ones, interpolated between counts so
 * that they make smooth lines, clipped to 0..1 (Spiegelhalter 2005, Statist. Med. 24:1185-1202, appendix A.1.1). Of none
 * they are 0..1.
 */
export function funnelLimits(target: number, of: number): FunnelLimits {
  if (of === 0) return { within95: { low: 0, high: 1 }, within998: { low: 0, high: 1 } };
  const counts = binomial(of, target);
  const at = (share: number): number => Math.min(1, Math.max(0, limitOf(counts, share) / of));
  return {
    within95: { low: at(0.025), high: at(0.975) },
    within998: { low: at(0.001), high: at(0.999) },
  };
}

/** r - (P(R <= r) - share) / P(R = r), where r is the smallest count that P(R <= r) is above `share`. */
function limitOf({ first, chances }: Discrete, share: number): number {
  let upTo = 0;
  for (const [index, chance] of chances.entries()) {
    upTo += chance;
    if (upTo > share) return first + index - (upTo - share) / chance;
  }
  return first + chances.length - 1;
}
