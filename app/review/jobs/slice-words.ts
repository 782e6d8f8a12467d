import type { ReviewNames, ReviewSlice } from '../../../main/contract/index.ts';
import type { GroupSlice, Review } from '../../../trees/review/index.ts';
import { OUTCOME_WORDS } from '../../bench/index.ts';
import { own } from '../../../trees/document/index.ts';
import { monthTitle } from '../words/days.ts';
import { counted, rangeWords } from '../words/figures.ts';
import {
  boardTitle,
  findingTitle,
  resultTitle,
  symptomTitle,
  technicianTitle,
  testTitle,
  treeTitle,
} from '../words/titles.ts';

/** What the jobs behind a figure have in common, as a title. */
export function sliceTitle(slice: ReviewSlice, names: ReviewNames, { branches }: Review): string {
  switch (slice.kind) {
    case 'all':
      return 'All closed jobs';
    case 'first-time-fixed':
      return 'Fixed the first time';
    case 'not-first-time-fixed':
      return 'Not fixed the first time';
    case 'month':
      return `Closed in ${monthTitle(slice.month)}`;
    case 'outcome':
      return OUTCOME_WORDS[slice.outcome].title;
    case 'tree':
    case 'symptom':
    case 'finding':
    case 'board':
    case 'technician':
      return `${groupTitle(slice, names)}${slice.judged === true ? ', comeback window passed' : ''}`;
    case 'back':
      return `Back within ${counted(slice.within, 'day')}`;
    case 'finding-fixed':
      return `Fixed: ${findingTitle(names, slice.tree, slice.finding)}`;
    case 'finding-back':
      return `${findingTitle(names, slice.tree, slice.finding)}: back within ${counted(slice.within, 'day')}`;
    case 'tried':
      return `Tried first: ${findingTitle(names, slice.tree, slice.finding)}`;
    case 'tried-in-vain':
      return `Tried first in vain: ${findingTitle(names, slice.tree, slice.finding)}`;
    case 'tried-instead':
      return `${findingTitle(names, slice.tree, slice.finding)} was tried first; it was: ${findingTitle(names, slice.tree, slice.was)}`;
    case 'found':
      return `${symptomTitle(names, slice.tree, slice.symptom)}, finding confirmed`;
    case 'proven':
      return `${symptomTitle(names, slice.tree, slice.symptom)}, repair proven`;
    case 'judged':
      return `${symptomTitle(names, slice.tree, slice.symptom)}, closed by ${technicianTitle(names, slice.technician)}, comeback window passed`;
    case 'branch':
      return branchTitle(slice, names, branches);
    case 'shown':
      return `A finding was shown with ${rangeWords(slice.from, slice.to)}`;
    case 'advised':
      return slice.taken ? 'The planner’s advice was taken' : 'The planner’s advice was not taken';
  }
}

function groupTitle(slice: GroupSlice, names: ReviewNames): string {
  switch (slice.kind) {
    case 'tree':
      return treeTitle(names, slice.tree);
    case 'symptom':
      return symptomTitle(names, slice.tree, slice.symptom);
    case 'finding':
      return findingTitle(names, slice.tree, slice.finding);
    case 'board':
      return slice.board === '' ? boardTitle(slice.board) : `Board ${slice.board}`;
    case 'technician':
      return `Closed by ${technicianTitle(names, slice.technician)}`;
  }
}

function branchTitle(
  slice: Extract<ReviewSlice, { kind: 'branch' }>,
  names: ReviewNames,
  branches: Review['branches'],
): string {
  const { tree, symptom, step, result } = slice;
  const test = branches.find(
    (one) => one.tree === tree && one.symptom === symptom && one.step === step,
  )?.test;
  if (test === undefined) return `${symptomTitle(names, tree, symptom)}: ${step}, ${result}`;
  const title = own(names.tests, `${tree}/${test}`) === undefined ? test : testTitle(names, tree, test);
  return `${title}: ${resultTitle(names, tree, test, result)}`;
}
