import type { ReviewNames } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import { periodWords } from './days.ts';
import { boardTitle, technicianTitle, treeTitle } from './titles.ts';

/** What the figures are narrowed to, in words; empty where they are of all jobs. */
export function filterWords(filter: ReviewFilter, names: ReviewNames): string {
  const { from, to, tree, board, technician } = filter;
  const words = [
    tree !== null && treeTitle(names, tree),
    board !== null && (board === '' ? 'no board noted' : `board ${boardTitle(board)}`),
    technician !== null && `closed by ${technicianTitle(names, technician)}`,
    (from !== null || to !== null) && periodWords(from, to),
  ];
  return words.filter((one) => one !== false).join(', ');
}
