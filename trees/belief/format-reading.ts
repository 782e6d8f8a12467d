import type { ReadingUnit } from '../document/index.ts';
import { UNIT_WRITINGS } from './reading-unit.ts';

const SHOWN_PREFIXES = ['p', 'n', '\u00b5', 'm', '', 'k', 'M', 'G', 'T'] as const;
const FIRST_POWER = -12;
/** Significant digits shown at most: one more than a 60,000-count meter has. */
const DIGITS = 6;

/**
 * A reading in engineering notation with its SI prefix, to at most six significant digits and no trailing zeros:
 * `4.7 kΩ`, `3.3 V`, `−120 mV`, `23.5 °C`, `OL`. {@link import('./parse-reading.ts').parseReading} reads it back.
 */
export function formatReading(value: number | 'OL', unit: ReadingUnit): string {
  if (value === 'OL') return 'OL';
  const { symbol, prefixed } = UNIT_WRITINGS[unit];
  const size = Number(Math.abs(value).toPrecision(DIGITS));
  const step = size === 0 || !prefixed ? -FIRST_POWER / 3 : stepOf(size);
  const [mantissa = '0', exponent = '0'] = size.toExponential().split('e');
  const shown = Number(`${mantissa}e${String(Number(exponent) - (FIRST_POWER + 3 * step))}`);
  const sign = value < 0 && size > 0 ? '\u2212' : '';
  return `${sign}${String(shown)} ${SHOWN_PREFIXES[step] ?? ''}${symbol}`;
}

/** Which of the shown prefixes leaves one to three digits before the point, as near as they reach. */
function stepOf(size: number): number {
  const exponent = Number(size.toExponential().split('e')[1] ?? '0');
  const step = Math.floor((exponent - FIRST_POWER) / 3);
  return Math.min(Math.max(step, 0), SHOWN_PREFIXES.length - 1);
}
