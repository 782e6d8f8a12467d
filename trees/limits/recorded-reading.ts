import type { Accuracy } from '../belief/index.ts';
import { referenceOf, resultOf, type Test } from '../document/index.ts';

/** A reading of a closed job whose finding was confirmed, as the records give it. Values are in the test's SI unit. */
export interface RecordedReading {
  readonly value: number | 'OL';
  /** The earlier reading's value that ratio bands were taken against; null where there was none. */
  readonly reference: number | null;
  readonly accuracy: Accuracy;
  /** The result it was sorted into when it was taken. */
  readonly result: string;
  /** The finding that was confirmed in its job; `unlisted` for a cause outside the tree. */
  readonly finding: string;
  readonly closedAt?: string;
}

/**
 * The result that a reading has under the test's bands as they are now, and as it was recorded where they cannot sort it:
 * the rule by which the shop's history is sorted again when a revision is published.
 */
export function resultNow(test: Test, { value, reference, result }: RecordedReading): string {
  const held = resultOf(test, value, reference ?? undefined);
  return held.ok ? held.result : result;
}

/**
 * Where a reading lies on the line that the test's limits stand on: its value, or its ratio to the earlier reading where
 * the bands are ratios. `OL` is beyond every limit: Infinity. Null where the earlier reading is wanting or zero.
 */
export function placeOf(
  test: Test,
  { value, reference }: Pick<RecordedReading, 'value' | 'reference'>,
): number | null {
  if (referenceOf(test) === undefined) return value === 'OL' ? Infinity : value;
  if (reference === null || reference === 0) return null;
  return value === 'OL' ? Infinity : value / reference;
}
