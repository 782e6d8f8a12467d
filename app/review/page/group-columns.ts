import type { ReviewSlice } from '../../../main/contract/index.ts';
import type { Group } from '../../../trees/review/index.ts';
import { percent } from '../../parts/index.ts';
import { countWords } from '../words/figures.ts';
import { partColumn } from './part-columns.ts';
import { interval, measure, type Column } from './table.ts';

/** A group with its title, and its tree's where that tells it from others. */
export type TitledGroup = Group & { readonly title: string; readonly of: string };

/** The columns of first-time fix by groups of one kind; `sorts` where one may sort by them. */
export function groupColumns(
  title: string,
  slice: (group: Group) => ReviewSlice | null,
  sorts = true,
  judgedSlice?: (group: Group) => ReviewSlice | null,
): readonly Column<TitledGroup>[] {
  const by = (order: (group: TitledGroup) => number | string) => (sorts ? { order } : {});
  return [
    partColumn(title, {
      head: 'id',
      id: ({ id }) => id,
      text: (group) => group.title,
      soft: (group) => group.of,
      sorts,
    }),
    measure('Closed', 'closed', ({ closed }) => closed, countWords, { slice, ...by(({ closed }) => closed) }),
    measure('Fixed first', 'fixed', ({ fixed }) => fixed, countWords),
    {
      title: 'Rate',
      text: ({ rate, closed }) => (closed === 0 ? '–' : percent(rate)),
      plain: [{ head: 'rate', cell: ({ rate }) => rate }],
      ...by(({ rate }) => rate),
    },
    interval('Wilson', (group) => group),
    {
      title: 'Judged',
      about: 'Fixed first, of the jobs whose comeback window has passed',
      text: ({ judged }) => `${countWords(judged.fixed)} of ${countWords(judged.closed)}`,
      ...(judgedSlice === undefined ? {} : { slice: judgedSlice }),
      plain: [],
    },
    measure('May come back', 'still_open', ({ stillOpen }) => stillOpen, countWords, {
      about: 'Of those fixed, whose comeback window has not passed',
      isHidden: true,
    }),
    measure('Window passed', 'judged_closed', ({ judged }) => judged.closed, countWords, {
      about: 'Jobs whose comeback window has passed',
      isHidden: true,
    }),
    measure('Fixed first of those', 'judged_fixed', ({ judged }) => judged.fixed, countWords, {
      isHidden: true,
    }),
  ];
}
