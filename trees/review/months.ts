import { controlPoint, pChart } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { DAY, dayOf, firstDayOf, monthOf, monthText } from './day.ts';
import type { MonthPoint, Review } from './figures.ts';
import { closedIn, fixedIn, fixTable, FLAGS, type FixTable } from './fix-table.ts';
import type { Tally } from './tally.ts';

/**
 * First-time fix by calendar month (UTC) of closing, as a p-chart (NIST/SEMATECH e-Handbook 6.3.3.2); months without a job are
 * left out. The centre line is that of the months all of whose jobs have had their window; the others are provisional: drawn
 * against it, not judged.
 */
export function openMonths(chosen: Chosen): Tally<Pick<Review, 'byMonth' | 'centre'>> {
  if (chosen.jobs === 0) return { add: () => undefined, result: () => ({ byMonth: [], centre: null }) };
  const [first, last] = [dayOf(chosen.first), dayOf(chosen.last)];
  const month = monthOf(first);
  const places = Uint32Array.from({ length: last - first + 1 }, (_, day) => monthOf(first + day) - month);
  const table = fixTable(monthOf(last) - month + 1);
  return {
    add: (block) => countByMonth(table, places, first, block),
    result: () => chartOf(table, month, chosen),
  };
}

function countByMonth(
  table: FixTable,
  places: Uint32Array,
  first: number,
  { columns, rows, flags }: ChosenBlock,
): void {
  const { closedAt } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const day = dayOf(closedAt[rows[at] ?? 0] ?? 0) - first;
    const place = (places[day] ?? 0) * FLAGS + (flags[at] ?? 0);
    table[place] = (table[place] ?? 0) + 1;
  }
}

function chartOf(
  table: FixTable,
  first: number,
  { window, now }: Chosen,
): Pick<Review, 'byMonth' | 'centre'> {
  const months = Array.from({ length: table.length / FLAGS }, (_, place) => ({
    number: first + place,
    count: fixedIn(table, place),
    of: closedIn(table, place),
    provisional: (firstDayOf(first + place + 1) + window) * DAY > now,
  })).filter(({ of }) => of > 0);
  const centre = pChart(months.filter(({ provisional }) => !provisional))?.centre ?? null;
  const byMonth = months.map(({ number, count, of, provisional }): MonthPoint => {
    const point = centre === null ? null : controlPoint(centre, { count, of });
    return {
      month: monthText(number),
      closed: of,
      fixed: count,
      rate: count / of,
      low: point?.low ?? 0,
      high: point?.high ?? 1,
      outOfControl: !provisional && point?.outOfControl === true,
      provisional,
    };
  });
  return { byMonth, centre };
}
