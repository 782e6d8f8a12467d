import type { Review, TriedFirst } from '../../../trees/review/index.ts';
import { rateOf } from '../../../trees/statistics/index.ts';
import { percent } from '../../parts/index.ts';
import { ENOUGH } from './enough.ts';
import { counted, countWords, rangeWords } from './figures.ts';

/** How often the first remedy was the right one, and which was most often tried in vain; `title` names a finding of a tree. */
export function triedWords(
  { triedFirst }: Pick<Review, 'triedFirst'>,
  title: (tree: string, finding: string) => string,
): string {
  const tried = triedFirst.reduce((sum, { of }) => sum + of, 0);
  if (tried === 0) return 'No remedy has been proved here yet.';
  const right = triedFirst.reduce((sum, { count }) => sum + count, 0);
  const { share, low, high } = rateOf(right, tried);
  const rate = `The first remedy that was proved mended the unit in ${countWords(right)} of ${counted(tried, 'job')}, ${percent(share)} (${rangeWords(low, high)}).`;
  if (tried < ENOUGH.jobs) return `${rate} From ${String(ENOUGH.jobs)} on that starts to mean something.`;
  const [most] = triedFirst;
  return most === undefined || inVain(most) === 0 ? rate : `${rate} ${mostWords(most, title)}`;
}

/** Jobs that the remedy did not mend. */
export function inVain({ of, count }: TriedFirst): number {
  return of - count;
}

function mostWords(most: TriedFirst, title: (tree: string, finding: string) => string): string {
  const [other] = most.instead;
  const was =
    other === undefined
      ? ''
      : `; it was “${title(most.tree, other.finding)}” in ${countWords(other.jobs)} of those`;
  return `Most often in vain: “${title(most.tree, most.finding)}”, ${countWords(inVain(most))} of ${countWords(most.of)}${was}.`;
}
