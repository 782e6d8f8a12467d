import { formatReading } from '../../../trees/belief/index.ts';
import type { Reading } from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';

/** An answer's reading in engineering notation; '' where the result was chosen. */
export function readingWords(
  tree: Tree,
  answer: { readonly test: string; readonly reading?: Pick<Reading, 'value'> | undefined },
): string {
  const unit = tree.tests[answer.test]?.reading?.unit;
  return unit === undefined || answer.reading === undefined ? '' : formatReading(answer.reading.value, unit);
}
