const day = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});
const month = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });

/** A day of the records (UTC, `YYYY-MM-DD`) in words. */
export function dayTitle(date: string): string {
  return day.format(new Date(date));
}

/** A month (`YYYY-MM`) in words. */
export function monthTitle(date: string): string {
  return month.format(new Date(`${date}-01`));
}

/** A period by its first and last day; whole months, and a whole year, are called by their names. */
export function periodWords(from: string | null, to: string | null): string {
  if (from === null) return to === null ? 'all of the record' : `up to ${dayTitle(to)}`;
  if (to === null) return `since ${dayTitle(from)}`;
  if (from === to) return dayTitle(from);
  return monthsWords(from, to) ?? `${dayTitle(from)} to ${dayTitle(to)}`;
}

/** The same behind what happened in it: `in November 2026`, `from 3 Nov 2026 to 9 Dec 2026`. */
export function withinWords(from: string | null, to: string | null): string {
  const words = periodWords(from, to);
  if (from === null) return to === null ? `in ${words}` : words;
  if (to === null) return words;
  if (from === to) return `on ${words}`;
  return words.includes(' to ') ? `from ${words}` : `in ${words}`;
}

/** Whole months by their names; null where a month is begun or cut off. */
function monthsWords(from: string, to: string): string | null {
  if (from > to || !from.endsWith('-01') || !isLastOfMonth(to)) return null;
  const [first, last] = [from.slice(0, 7), to.slice(0, 7)];
  if (first === last) return monthTitle(first);
  const year = from.slice(0, 4);
  return first === `${year}-01` && last === `${year}-12`
    ? year
    : `${monthTitle(first)} to ${monthTitle(last)}`;
}

function isLastOfMonth(day: string): boolean {
  return new Date(Date.parse(day) + 86_400_000).getUTCDate() === 1;
}
