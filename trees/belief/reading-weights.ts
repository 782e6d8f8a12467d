import type { Reading } from '../chart/index.ts';
import { limitsOf, resultOf, type BandRefusal, type Test } from '../document/index.ts';
import { normalBetween } from './normal.ts';

/** A reading is too close to call where no result has at least this weight. */
export const CLEAR_WEIGHT = 0.95;

/** How far a reading speaks for each result of its test. */
export interface ReadingWeights {
  readonly ok: true;
  /** w(r) for every result; they sum to one. */
  readonly weights: Readonly<Record<string, number>>;
  /** The result whose band holds the value: the one that the walk follows. */
  readonly holds: string;
  /** No weight reaches 0.95: measure again, or with a better instrument. */
  readonly tooClose: boolean;
}

/**
 * w(r), the probability that the true value lies in r's band: normal about the value y with the standard uncertainty
 * u = (percent |y| / 100 + constant) / sqrt(3), a rectangular distribution's (JCGM 100:2008, 4.3.7; JCGM 106:2012,
 * clause 7). An accuracy of zero, or `OL`, puts all weight on the band that holds the value. Ratio bands are limits at
 * the ratio times `reference`, the earlier reading's value, which is taken as read: only this reading's uncertainty
 * counts. Refused where the bands cannot be had (`reference-missing`, `reference-zero`, `no-bands`).
 */
export function readingWeights(
  test: Test,
  reading: Pick<Reading, 'value' | 'accuracy'>,
  reference?: number,
): ReadingWeights | BandRefusal {
  const held = resultOf(test, reading.value, reference);
  if (!held.ok) return held;
  const found = limitsOf(test, reference);
  if (!found.ok) return found;
  const { value } = reading;
  const uncertainty = value === 'OL' ? 0 : standardUncertainty(value, reading.accuracy);
  const weights: Record<string, number> = {};
  for (const { result, from, to } of found.limits) {
    weights[result] =
      value === 'OL' || uncertainty === 0
        ? Number(result === held.result)
        : normalBetween(value, uncertainty, from, to);
  }
  const tooClose = Object.values(weights).every((weight) => weight < CLEAR_WEIGHT);
  return { ok: true, weights, holds: held.result, tooClose };
}

/** u = (percent |y| / 100 + constant) / sqrt(3), in the reading's unit (JCGM 100:2008, 4.3.7). */
export function standardUncertainty(value: number, { percent, constant }: Reading['accuracy']): number {
  return ((percent * Math.abs(value)) / 100 + constant) / Math.sqrt(3);
}
