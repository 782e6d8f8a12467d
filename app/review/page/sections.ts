import type { Review } from '../../../trees/review/index.ts';
import { percent } from '../../parts/index.ts';
import { savedGist } from '../words/advice-words.ts';
import { ENOUGH } from '../words/enough.ts';
import { branchesGist, calibrationGist } from '../words/tree-words.ts';
import { counted, lengthWords } from '../words/figures.ts';

/** The parts of the review in their order; a number key leads to each. */
export const SECTIONS = [
  {
    id: 'first-time-fix',
    title: 'First-time fix',
    says: 'how many units were fixed the first time, by month, tree, board, symptom, finding and technician.',
  },
  { id: 'comebacks', title: 'Comebacks', says: 'how many stay away, and for how long.' },
  {
    id: 'hours',
    title: 'Where the hours go',
    says: 'which findings take the jobs, the minutes and the parts.',
  },
  {
    id: 'tree',
    title: 'Is the tree right?',
    says: 'which branches differ from what was expected, and whether what was shown as likely was.',
  },
  {
    id: 'advice',
    title: 'What the advice is worth',
    says: 'how many minutes the planner’s advice saved, and would have saved.',
  },
] as const;

export type SectionId = (typeof SECTIONS)[number]['id'];

/** What each part comes to, in a few words for the index. */
export function gistOf(id: SectionId, review: Review, window: number): string {
  switch (id) {
    case 'first-time-fix':
      return review.jobs === 0
        ? ''
        : `${percent(review.firstTimeFix.rate)} of ${counted(review.jobs, 'job')}`;
    case 'comebacks':
      if (review.atWindow === null) return 'not known yet';
      return review.atWindow.atRisk < ENOUGH.inSight
        ? 'too few to say'
        : `${percent(review.atWindow.survival)} not back after ${counted(window, 'day')}`;
    case 'hours':
      return review.toFinding === null ? '' : `${lengthWords(review.toFinding.median)} to the finding`;
    case 'tree':
      return [branchesGist(review), calibrationGist(review)].filter((words) => words !== null).join('; ');
    case 'advice':
      return savedGist(review.planner);
  }
}
