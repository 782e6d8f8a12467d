import type { ReviewFilter } from '../../../trees/review/index.ts';
import { dayOf } from '../filter/periods.ts';

/** Days (UTC, `YYYY-MM-DD`) from the first to the last one. */
export interface Span {
  readonly from: string;
  readonly to: string;
}

const DAY = 86_400_000;

/** Months that are set beside the sheet's: a year before it, so that the same season can be seen. */
const MONTHS_BESIDE = 12;

/** Whether it is a month as the records write it, `YYYY-MM`. */
export function isMonth(text: string): boolean {
  return /^\d{4}-(0[1-9]|1[0-2])$/.test(text);
}

/**
 * The month (`YYYY-MM`, UTC) that a sheet is of where none is asked for: that which the page is narrowed to; else the last whole
 * one of its period, `today` (`YYYY-MM-DD`) reckoned with.
 */
export function monthOfSheet({ from, to }: Pick<ReviewFilter, 'from' | 'to'>, today: string): string {
  const month = to?.slice(0, 7) ?? '';
  if (to !== null && from === `${month}-01` && to === spanOf(month).to) return month;
  const end = to !== null && to < today ? to : today;
  const last = end.slice(0, 7);
  return end === spanOf(last).to ? last : monthBefore(last, 1);
}

/** A month's days. */
export function spanOf(month: string): Span {
  const [year = 1970, number = 1] = month.split('-').map(Number);
  return { from: `${month}-01`, to: dayOf(Date.UTC(year, number, 0)) };
}

/** The days of a month and of the year before it. */
export function yearUpTo(month: string): Span {
  return { from: `${monthBefore(month, MONTHS_BESIDE)}-01`, to: spanOf(month).to };
}

/** When the comeback windows of all units fixed in a month are over, at `window` days each; in milliseconds since 1970. */
export function windowsEnd(month: string, window: number): number {
  return Date.parse(spanOf(month).to) + (1 + window) * DAY;
}

/** The months from the first to the last one, the last one first; at least that one. */
export function monthsDown(last: string, first: string): readonly string[] {
  const months = [last];
  for (let month = monthBefore(last, 1); month >= first; month = monthBefore(month, 1)) months.push(month);
  return months;
}

function monthBefore(month: string, months: number): string {
  const [year = 1970, number = 1] = month.split('-').map(Number);
  return dayOf(Date.UTC(year, number - 1 - months, 1)).slice(0, 7);
}
