import { deviationsOf } from './deviations-of.ts';

/** A share of things counted, with the interval that the count leaves for it. All three are 0..1. */
export interface Rate {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * `count` of `of` as a share with Wilson's score interval, no continuity correction (Wilson 1927, J. Amer. Statist.
 * Assoc. 22:209-212; method 3 in Newcombe 1998, Statist. Med. 17:857-872). Of none the share is 0 and the interval is all of 0..1.
 */
export function rateOf(count: number, of: number, confidence = 0.95): Rate {
  if (of === 0) return { count, of, share: 0, low: 0, high: 1 };
  const share = count / of;
  const deviations = deviationsOf(confidence);
  const square = deviations * deviations;
  const middle = share + square / (2 * of);
  const reach = deviations * Math.sqrt((share * (1 - share)) / of + square / (4 * of * of));
  const scale = 1 + square / of;
  // At none and at all the formula's own limit is exactly 0 and 1; rounding would leave a trace of the other side.
  const low = count === 0 ? 0 : Math.max(0, (middle - reach) / scale);
  const high = count === of ? 1 : Math.min(1, (middle + reach) / scale);
  return { count, of, share, low, high };
}
