import { formatReading } from '../../../trees/belief/index.ts';
import { own, type Tree } from '../../../trees/document/index.ts';

/** The limits of a test's result in words, as in `3.135 V to 3.465 V` or `below 0.96 × Rail in`; '' where it is chosen. */
export function limitsWords(tree: Tree, test: string, result: string): string {
  const measured = own(tree.tests, test);
  const band = own(measured?.results ?? {}, result)?.band;
  const unit = measured?.reading?.unit;
  if (band === undefined || unit === undefined) return '';
  const { from, to, of } = band;
  const words = (limit: number): string =>
    of === undefined ? formatReading(limit, unit) : `${String(limit)} × ${own(tree.tests, of)?.title ?? of}`;
  if (from === undefined) return to === undefined ? 'any reading' : `below ${words(to)}`;
  if (to === undefined) return `${words(from)} or more`;
  return of === undefined ? `${words(from)} to below ${words(to)}` : `${String(from)} to below ${words(to)}`;
}
