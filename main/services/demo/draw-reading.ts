import { defaultAccuracy, formatReading, parseReading } from '../../../trees/belief/index.ts';
import type { Reading } from '../../../trees/chart/index.ts';
import { limitsOf, resultOf, type ReadingUnit, type Test } from '../../../trees/document/index.ts';
import type { Random } from './random.ts';

/**
 * A plausible reading that falls in a result's band, as a technician would type it, with the usual accuracy of the test's
 * instrument; null where the bands are ratios to a reading that cannot be divided by. `reference` is that reading.
 */
export function drawReading(
  test: Test,
  result: string,
  reference: number | undefined,
  random: Random,
): Reading | null {
  const unit = test.reading?.unit;
  const found = limitsOf(test, reference);
  if (unit === undefined || !found.ok) return null;
  const band = found.limits.find((limits) => limits.result === result);
  if (band === undefined) return null;
  const accuracy = defaultAccuracy(test.instrument);
  if (unit === 'ohm' && band.to === Infinity && random.happens(0.4))
    return { value: 'OL', typed: 'OL', accuracy };
  const exact = within(band.from, band.to, random.next());
  for (const digits of [3, 4, 5, 6]) {
    const typed = typedAs(Number(exact.toPrecision(digits)), unit);
    const read = parseReading(typed, unit);
    if (!read.ok) continue;
    const held = resultOf(test, read.value, reference);
    if (held.ok && held.result === result) return { value: read.value, typed, accuracy };
  }
  return null;
}

/** Well inside a band that has two ends; near the end of one that has only one, and above zero where it reaches there. */
function within(from: number, to: number, drawn: number): number {
  if (Number.isFinite(from) && Number.isFinite(to)) return from + (to - from) * (0.1 + 0.8 * drawn);
  if (Number.isFinite(to))
    return to > 0 ? to * (0.1 + 0.8 * drawn) : to - Math.max(Math.abs(to), 0.01) * (0.1 + drawn);
  if (Number.isFinite(from)) return from + Math.max(Math.abs(from), 0.01) * (0.02 + 0.25 * drawn);
  return drawn;
}

/** As a meter's user types it: no unit, a plain minus. */
function typedAs(value: number, unit: ReadingUnit): string {
  const [number = '', symbol = ''] = formatReading(value, unit).replace('\u2212', '-').split(' ');
  const [prefix = ''] = symbol;
  return /^[pn\u00b5mkMGT]$/u.test(prefix) && symbol.length > 1 ? `${number}${prefix}` : number;
}
