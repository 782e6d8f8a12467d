import type { ReviewNames } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import { withinWords } from './days.ts';
import { boardTitle, technicianTitle, treeTitle } from './titles.ts';

/**
 * What the jobs that the figures are of have in common, to stand behind `jobs` or a count of them: `on “Gull” with board B2, closed by
 * Ada in November 2026`; empty where they are of all jobs.
 */
export function filterWords(filter: ReviewFilter, names: ReviewNames): string {
  const { from, to, tree, board, technician } = filter;
  const closed = [
    technician !== null && `by ${technicianTitle(names, technician)}`,
    (from !== null || to !== null) && withinWords(from, to),
  ].filter((one) => one !== false);
  const unit = [
    tree !== null && `on “${treeTitle(names, tree)}”`,
    board !== null && (board === '' ? 'with no board noted' : `with board ${boardTitle(board)}`),
  ].filter((one) => one !== false);
  const words = [unit.join(' '), closed.length > 0 ? `closed ${closed.join(' ')}` : ''];
  return words.filter((one) => one !== '').join(', ');
}
