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

/** A period by its first and last day; a whole month is called by its name. */
export function periodWords(from: string | null, to: string | null): string {
  if (from === null) return to === null ? 'all of the record' : `up to ${dayTitle(to)}`;
  if (to === null) return `since ${dayTitle(from)}`;
  if (from === to) return dayTitle(from);
  return isWholeMonth(from, to) ? monthTitle(from.slice(0, 7)) : `${dayTitle(from)} to ${dayTitle(to)}`;
}

function isWholeMonth(from: string, to: string): boolean {
  const next = new Date(Date.parse(to) + 86_400_000).toISOString().slice(8);
  return from.slice(0, 7) === to.slice(0, 7) && from.endsWith('-01') && next === '01';
}
