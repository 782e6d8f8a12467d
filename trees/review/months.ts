import { controlPoint, pChart, trend } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { DAY, dayOf, firstDayOf, monthOf, monthText } from './day.ts';
import type { MonthPoint, MonthTrend, Review } from './figures.ts';
import { closedIn, fixedIn, fixTable, FLAGS, type FixTable } from './fix-table.ts';
import type { Tally } from './tally.ts';

/**
 * What a normal variable is off by three standard deviations or more with: the line is called more than chance as rarely as a month
 * is by its limits, as it is looked at every month and under every filter.
 */
const THREE_SIGMA = 0.0027;

type Months = Pick<Review, 'byMonth' | 'centre' | 'trend'>;

/**
 * First-time fix by calendar month (UTC) of closing, as a p-chart (NIST/SEMATECH e-Handbook 6.3.3.2); months without a job are
 * left out. The centre line is that of the months all of whose jobs have had their window; the others are provisional. Comebacks
 * can but lower a provisional month that is over, so that it is judged where it is below its limit, and nowhere else; the month
 * that is not over is drawn, not judged.
 */
export function openMonths(chosen: Chosen): Tally<Months> {
  if (chosen.jobs === 0)
    return { add: () => undefined, result: () => ({ byMonth: [], centre: null, trend: null }) };
  const month = monthOf(dayOf(chosen.first));
  const months = monthOf(dayOf(chosen.last)) - month + 1;
  const begins = Float64Array.from({ length: months + 1 }, (_, place) => firstDayOf(month + place) * DAY);
  const table = fixTable(months);
  return {
    add: (block) => countByMonth(table, begins, block),
    result: () => chartOf(table, month, chosen),
  };
}

/** `begins` has by month, and for the one after the last, the moment that it begins at. */
function countByMonth(table: FixTable, begins: Float64Array, { columns, rows, flags }: ChosenBlock): void {
  const { closedAt } = columns;
  let [place, from, to] = [0, 0, 0];
  for (let at = 0; at < rows.length; at += 1) {
    const closed = closedAt[rows[at] ?? 0] ?? 0;
    // Jobs that were opened on one day are mostly closed in one month.
    if (closed < from || closed >= to) {
      place = monthAt(begins, closed);
      from = begins[place] ?? 0;
      to = begins[place + 1] ?? 0;
    }
    const entry = place * FLAGS + (flags[at] ?? 0);
    table[entry] = (table[entry] ?? 0) + 1;
  }
}

function monthAt(begins: Float64Array, moment: number): number {
  let [low, high] = [0, begins.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((begins[middle] ?? 0) <= moment) low = middle;
    else high = middle;
  }
  return low;
}

function chartOf(table: FixTable, first: number, { window, now }: Chosen): Months {
  const months = Array.from({ length: table.length / FLAGS }, (_, place) => ({
    number: first + place,
    count: fixedIn(table, place),
    of: closedIn(table, place),
    isOver: firstDayOf(first + place + 1) * DAY <= now,
    provisional: (firstDayOf(first + place + 1) + window) * DAY > now,
  })).filter(({ of }) => of > 0);
  const final = months.filter(({ provisional }) => !provisional);
  const centre = pChart(final)?.centre ?? null;
  const byMonth = months.map(({ number, count, of, isOver, provisional }): MonthPoint => {
    const point = centre === null ? null : controlPoint(centre, { count, of });
    const isJudged = !provisional || (isOver && count / of < (point?.low ?? 0));
    return {
      month: monthText(number),
      closed: of,
      fixed: count,
      rate: count / of,
      low: point?.low ?? 0,
      high: point?.high ?? 1,
      outOfControl: isJudged && point?.outOfControl === true,
      provisional,
    };
  });
  return { byMonth, centre, trend: trendOf(final) };
}

function trendOf(
  final: readonly { readonly number: number; readonly count: number; readonly of: number }[],
): MonthTrend | null {
  const line = trend(final.map(({ number, count, of }) => ({ at: number, count, of })));
  if (line === null) return null;
  const { slope, deviations, chance } = line;
  return { months: final.length, perMonth: slope, deviations, chance, differs: chance < THREE_SIGMA };
}
