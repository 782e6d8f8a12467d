import { closingsOf } from './closings.ts';
import { dayOf, dayText } from './day.ts';
import { everyRow } from './every-row.ts';
import type { Facts } from './fact.ts';
import type { Review } from './figures.ts';

/** All closed jobs on record, and the days of the first and the last closing. */
export function recordOf({ blocks }: Facts): Review['record'] {
  const spans = blocks.map((columns) => closingsOf(columns, everyRow(columns.rows)));
  const jobs = blocks.reduce((sum, { rows }) => sum + rows, 0);
  if (jobs === 0) return { jobs, first: null, last: null };
  const first = spans.reduce((least, span) => Math.min(least, span.first), Infinity);
  const last = spans.reduce((most, span) => Math.max(most, span.last), -Infinity);
  return { jobs, first: dayText(dayOf(first)), last: dayText(dayOf(last)) };
}
