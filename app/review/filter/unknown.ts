import type { ReviewChoices, ReviewNames } from '../../../main/contract/index.ts';
import type { ReviewFilter } from '../../../trees/review/index.ts';
import { boardTitle, technicianTitle, treeTitle } from '../words/titles.ts';
import type { AskedFilter } from './address.ts';
import { boardsOf } from './options.ts';

/** Something in the address that narrows the page to nothing, in a sentence, and what takes it off. */
export interface Unknown {
  readonly sentence: string;
  readonly off: Partial<ReviewFilter>;
}

/** What of the filters in the address no closed job has, or is no filter at all. */
export function unknownIn(
  { filter, unsound }: AskedFilter,
  choices: ReviewChoices | null,
  names: ReviewNames | null,
): readonly Unknown[] {
  const misread = unsound.map((name) => ({
    sentence: `The address names ${WHAT[name]} that cannot be read; the page is not narrowed by it.`,
    off: {},
  }));
  const { from, to } = filter;
  const backwards =
    from !== null && to !== null && from > to
      ? [
          {
            sentence: 'The first day is after the last one, so that no job is between them.',
            off: { from: null, to: null },
          },
        ]
      : [];
  return [
    ...misread,
    ...backwards,
    ...(choices === null || names === null ? [] : unheld(filter, choices, names)),
  ];
}

const WHAT: Readonly<Record<keyof ReviewFilter, string>> = {
  from: 'a first day',
  to: 'a last day',
  tree: 'a tree',
  board: 'a board',
  technician: 'a technician',
  window: 'a comeback window',
};

function unheld(filter: ReviewFilter, choices: ReviewChoices, names: ReviewNames): readonly Unknown[] {
  const { tree, board, technician } = filter;
  const all: readonly (Unknown | null)[] = [
    tree === null || choices.trees.includes(tree)
      ? null
      : { sentence: `No closed job is of the tree “${treeTitle(names, tree)}”.`, off: { tree: null } },
    board === null || boardsOf(choices, tree).includes(board)
      ? null
      : {
          sentence: `No closed job${tree === null ? '' : ' of this tree'} has the board “${boardTitle(board)}”.`,
          off: { board: null },
        },
    technician === null || choices.technicians.includes(technician)
      ? null
      : {
          sentence: `No job was closed by the technician “${technicianTitle(names, technician)}”.`,
          off: { technician: null },
        },
  ];
  return all.filter((one) => one !== null);
}
