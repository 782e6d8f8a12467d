import { dayOf, dayText } from './day.ts';
import type { FactColumns, Facts } from './fact.ts';
import type { Review } from './figures.ts';

/** All closed jobs on record, and the days of the first and the last closing. */
export function recordOf({ blocks }: Facts): Review['record'] {
  const spans = blocks.filter(({ rows }) => rows > 0).map(spanOf);
  const jobs = blocks.reduce((sum, { rows }) => sum + rows, 0);
  if (jobs === 0) return { jobs, first: null, last: null };
  const first = spans.reduce((least, span) => Math.min(least, span.first), Infinity);
  const last = spans.reduce((most, span) => Math.max(most, span.last), -Infinity);
  return { jobs, first: dayText(dayOf(first)), last: dayText(dayOf(last)) };
}

interface Span {
  readonly first: number;
  readonly last: number;
}

// A block that changes becomes another one.
const known = new WeakMap<FactColumns, Span>();

function spanOf(columns: FactColumns): Span {
  const had = known.get(columns);
  if (had !== undefined) return had;
  let [first, last] = [Infinity, -Infinity];
  for (let row = 0; row < columns.rows; row += 1) {
    const closed = columns.closedAt[row] ?? 0;
    if (closed < first) first = closed;
    if (closed > last) last = closed;
  }
  const span = { first, last };
  known.set(columns, span);
  return span;
}
