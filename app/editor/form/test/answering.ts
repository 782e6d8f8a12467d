import type { ReadingUnit } from '../../../../trees/document/index.ts';
import { drop, keysAt, put, type Change, type DraftDocument } from '../../../../trees/edit/index.ts';

/** The units of a reading, as one chooses how a test is answered. */
export const READING_WORDS: Readonly<Record<ReadingUnit, string>> = {
  V: 'A reading in volts (V)',
  A: 'A reading in amperes (A)',
  ohm: 'A reading in ohms (Ω)',
  Hz: 'A reading in hertz (Hz)',
  s: 'A reading in seconds (s)',
  degC: 'A reading in degrees Celsius (°C)',
};

/**
 * The changes that make a test answered by a reading in a unit, or by choosing a result where there is none: then its bands go,
 * as nothing is read any more.
 */
export function changesToAnswering(
  document: DraftDocument,
  test: string,
  unit: string | undefined,
): readonly Change[] {
  const path = ['tests', test];
  if (unit !== undefined) return put(document, [...path, 'reading', 'unit'], unit);
  const results = keysAt(document, [...path, 'results']);
  return [
    ...drop(document, [...path, 'reading']),
    ...results.flatMap((result) => drop(document, [...path, 'results', result, 'band'])),
  ];
}
