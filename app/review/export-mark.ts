import { getContext, setContext } from 'svelte';
import type { ReviewPage } from '../../main/contract/index.ts';
import { COMEBACK_WINDOW_DAYS, type ReviewFilter } from '../../trees/review/index.ts';
import { dayOf } from './filter/periods.ts';
import { dayTitle } from './words/days.ts';
import { counted } from './words/figures.ts';
import { filterWords } from './words/filter-words.ts';
import { technicianTitle } from './words/titles.ts';

/** Which jobs a saved file is of, and when it was reckoned: for its name, and for who reads it. */
export interface ExportMark {
  readonly file: string;
  readonly words: string;
}

const KEY = Symbol('export mark');
const NONE: ExportMark = { file: '', words: '' };

/** Gives all that is saved from within a component its mark, as it is at the time of saving. */
export function provideExportMark(mark: () => ExportMark): void {
  setContext(KEY, mark);
}

/** The mark of what is saved here; an empty one where none was given. */
export function useExportMark(): () => ExportMark {
  return getContext<(() => ExportMark) | undefined>(KEY) ?? (() => NONE);
}

/** The mark of figures by what they are narrowed to; with the day (UTC) that they were reckoned on. */
export function exportMark(
  filter: ReviewFilter,
  { names, review, invented }: Pick<ReviewPage, 'names' | 'review' | 'invented'>,
): ExportMark {
  const { tree, board, technician, from, to, window } = filter;
  const isUsual = window === COMEBACK_WINDOW_DAYS;
  const day = dayOf(review.asOf);
  const file = [
    tree === null ? null : safeName(tree),
    board === null ? null : board === '' ? 'no-board' : `board-${safeName(board)}`,
    technician === null ? null : `by-${safeName(technicianTitle(names, technician))}`,
    periodName(from, to),
    isUsual ? null : `window-${String(window)}`,
    `as-of-${day}`,
  ];
  const narrowed = filterWords(filter, names);
  const words = [
    narrowed === '' ? 'All closed jobs' : `Jobs ${narrowed}`,
    isUsual ? null : `comebacks within ${counted(window, 'day')}`,
    `as of ${dayTitle(day)}`,
    invented ? 'invented jobs among them' : null,
  ];
  return {
    file: file.filter((one) => one !== null).join('-'),
    words: `${words.filter((one) => one !== null).join('; ')}.`,
  };
}

/** A file's name with its mark, without its ending. */
export function markedName(name: string, { file }: ExportMark): string {
  return file === '' ? name : `${name}-${file}`;
}

function periodName(from: string | null, to: string | null): string | null {
  if (from === null) return to === null ? null : `up-to-${to}`;
  if (to === null) return `since-${from}`;
  return from === to ? from : `${from}-to-${to}`;
}

/** So long a part of a name may be, in characters. */
const LONGEST = 32;

/** What of a text every file system takes in a name: its letters and figures, hyphens for all else; `other` where it has none. */
function safeName(text: string): string {
  const plain = text
    .normalize('NFC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '-');
  const short = [...plain].slice(0, LONGEST).join('').replaceAll(/^-|-$/g, '');
  return short === '' ? 'other' : short;
}
