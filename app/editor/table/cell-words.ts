import type { Test } from '../../../trees/document/index.ts';
import type { ExpectCell } from '../../../trees/edit/index.ts';
import { percent } from '../../parts/index.ts';
import { titled } from '../desk/part-words.ts';

/** A cell in figures and few words, as it stands in the table: each result by its number. */
export function cellText(test: Test, cell: ExpectCell): string {
  if (cell.kind === 'unknown') return '·';
  const given = resultsGiven(test, cell.shares);
  const [only] = given;
  if (given.length === 1 && only !== undefined) return `${String(only.number)} ${only.title}`;
  return given.map(({ number, share }) => `${String(number)} ${percent(share)}`).join('  ');
}

/** A cell in a sentence, as it is announced. */
export function cellWords(test: Test, cell: ExpectCell): string {
  if (cell.kind === 'unknown') return 'nothing is known';
  const given = resultsGiven(test, cell.shares);
  const words =
    given.length === 1
      ? (given[0]?.title ?? '')
      : given.map(({ title, share }) => `${title} ${percent(share)}`).join(', ');
  if (cell.kind === 'path') return `${words}, by the paths`;
  return cell.againstPath ? `${words}, but the paths lead to it by other results` : words;
}

/** The results that are given at all, by their number. */
function resultsGiven(test: Test, shares: readonly number[]) {
  return Object.values(test.results).flatMap(({ title }, place) => {
    const share = shares[place] ?? 0;
    return share > 0 ? [{ number: place + 1, title: titled(title), share }] : [];
  });
}
