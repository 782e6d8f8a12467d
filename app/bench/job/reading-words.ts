import { formatReading } from '../../../trees/belief/index.ts';
import type { Reading } from '../../../trees/chart/index.ts';
import type { ReadingUnit, Tree } from '../../../trees/document/index.ts';

/** An answer's reading in engineering notation; '' where the result was chosen. */
export function readingWords(
  tree: Tree,
  answer: { readonly test: string; readonly reading?: Pick<Reading, 'value'> | undefined },
): string {
  const unit = tree.tests[answer.test]?.reading?.unit;
  return unit === undefined || answer.reading === undefined ? '' : formatReading(answer.reading.value, unit);
}

/** A unit as it is written after a value; '' where there is none. */
export function unitSymbol(unit: ReadingUnit | undefined): string {
  return unit === undefined ? '' : formatReading(0, unit).replace('0', '').trim();
}
