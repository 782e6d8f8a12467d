import { binomialTails } from './binomial-tails.ts';
import type { Interval } from './interval.ts';

/** A period's things, and how many of them had what is charted. */
export interface Period {
  readonly count: number;
  readonly of: number;
}

/** A point of a p-chart; `low` and `high` are the control limits for its number of things. */
export interface ControlPoint extends Interval {
  readonly rate: number;
  readonly outOfControl: boolean;
}

/** Standard deviations from the centre line to a control limit. */
const SIGMAS = 3;
/** Where fewer are expected than this, of those that have it or of those that do not, the normal limits are no good. */
const FEW = 5;
/** What a normal variable does beyond three standard deviations on one side. */
const RARE = 0.00135;

/**
 * A period against the centre line of a p-chart: limits at centre ± 3 sqrt(centre (1 - centre) / of), clipped to 0..1, out
 * of control beyond them (NIST/SEMATECH e-Handbook 6.3.3.2). Where fewer than five are expected on a side, the exact
 * binomial tail must be as rare as a normal one beyond the limit, too (our own rule: small periods must not make noise look
 * like news). Of none the rate is 0 and the limits are 0..1.
 */
export function controlPoint(centre: number, { count, of }: Period): ControlPoint {
  if (of === 0) return { rate: 0, low: 0, high: 1, outOfControl: false };
  const rate = count / of;
  const reach = SIGMAS * Math.sqrt((centre * (1 - centre)) / of);
  const low = Math.max(0, centre - reach);
  const high = Math.min(1, centre + reach);
  const beyond = rate < low || rate > high;
  return { rate, low, high, outOfControl: beyond && isNews(centre, { count, of }) };
}

function isNews(centre: number, { count, of }: Period): boolean {
  if (Math.min(of * centre, of * (1 - centre)) >= FEW) return true;
  const { atMost, atLeast } = binomialTails(count, of, centre);
  return Math.min(atMost, atLeast) <= RARE;
}
