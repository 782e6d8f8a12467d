import { controlPoint, pChart } from '../statistics/index.ts';
import type { Chosen } from './choose.ts';
import { DAY, dayOf, firstDayOf, monthOf, monthText } from './day.ts';
import type { MonthPoint, Review } from './figures.ts';
import { countIn, fixTable, type FixTable } from './groups.ts';

/** First-time fix by the month of closing, in order; months without a job are left out. */
export interface Months {
  /** Months since the year 0, as monthOf counts them. */
  readonly first: number;
  readonly table: FixTable;
}

/** Counts by calendar month (UTC) of closing. */
export function monthsOf({ blocks, jobs }: Chosen): Months {
  const { first, last } = spanOf(blocks);
  if (jobs === 0) return { first: 0, table: fixTable(0) };
  const start = monthOf(first);
  const table = fixTable(monthOf(last) - start + 1);
  const place = Uint32Array.from({ length: last - first + 1 }, (_, day) => monthOf(first + day) - start);
  for (const { columns, rows, flags } of blocks) {
    const { closedAt } = columns;
    for (let at = 0; at < rows.length; at += 1) {
      const day = dayOf(closedAt[rows[at] ?? 0] ?? 0);
      countIn(table, place[day - first] ?? 0, flags[at] ?? 0);
    }
  }
  return { first: start, table };
}

/** First and last day, in days from 1970-01-01, on which one of these jobs was closed. */
function spanOf(blocks: Chosen['blocks']): { readonly first: number; readonly last: number } {
  let first = Infinity;
  let last = -Infinity;
  for (const { columns, rows } of blocks) {
    for (let at = 0; at < rows.length; at += 1) {
      const closed = columns.closedAt[rows[at] ?? 0] ?? 0;
      if (closed < first) first = closed;
      if (closed > last) last = closed;
    }
  }
  return { first: dayOf(first), last: dayOf(last) };
}

/**
 * The p-chart of the months (NIST/SEMATECH e-Handbook 6.3.3.2). The centre line is that of the months all of whose jobs have had
 * their window; the others are provisional: drawn against it, not judged.
 */
export function monthChart(months: Months, { window, now }: Chosen): Pick<Review, 'byMonth' | 'centre'> {
  const counted = countedMonths(months).map((month) => ({
    ...month,
    provisional: (firstDayOf(month.number + 1) + window) * DAY > now,
  }));
  const judged = counted.filter(({ provisional }) => !provisional);
  const chart = pChart(judged);
  const points = new Map(judged.map(({ number }, place) => [number, chart?.points[place]]));
  const byMonth = counted.map(({ number, count, of, provisional }): MonthPoint => {
    const point = points.get(number) ?? (chart === null ? null : controlPoint(chart.centre, { count, of }));
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
  return { byMonth, centre: chart?.centre ?? null };
}

function countedMonths({ first, table }: Months) {
  return Array.from(table.closed, (of, place) => ({
    number: first + place,
    count: table.fixed[place] ?? 0,
    of,
  })).filter(({ of }) => of > 0);
}
