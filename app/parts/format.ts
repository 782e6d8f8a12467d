/** Formats at the edge: probabilities, minutes, counts and instants as the screens and the sheet show them. */

/** A probability (0..1) as whole percent; what is there but rounds to nothing or to all is told from none and all. */
export function percent(probability: number): string {
  if (probability > 0 && probability < 0.005) return '<1\u202f%';
  if (probability < 1 && probability >= 0.995) return '>99\u202f%';
  return `${String(Math.round(probability * 100))}\u202f%`;
}

/** How many jobs of the shop stand behind a figure. */
export function jobsWords(count: number): string {
  if (count === 0) return 'no jobs';
  return count === 1 ? '1 job' : `${String(count)} jobs`;
}

/** Decimal minutes as the trade says them: under ten with one decimal at most. */
export function minutesWords(minutes: number): string {
  const rounded = minutes < 10 ? Math.round(minutes * 10) / 10 : Math.round(minutes);
  return `${String(rounded)} min`;
}

/** A part's price; the currency is the shop's own and is not written in the tree. */
export function priceWords(price: number): string {
  return price.toFixed(2);
}

/** Keeps a number and its unit on one line. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=[a-zA-ZµΩ°%]{1,4}(?:\W|$))/gu, '$1\u00a0');
}

const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
const dayOfYear = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' });
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** An instant (ISO 8601, UTC) as the bench's local date. */
export function dayWords(instant: string): string {
  return day.format(new Date(instant));
}

/** An instant as the bench's local time of day. */
export function clockWords(instant: string): string {
  return clock.format(new Date(instant));
}

/** Local date and time; the date is left out on the day of `now`, and the year in its year. */
export function instantWords(instant: string, now: Date): string {
  const at = new Date(instant);
  if (at.toDateString() === now.toDateString()) return clock.format(at);
  const date = at.getFullYear() === now.getFullYear() ? dayOfYear : day;
  return `${date.format(at)}, ${clock.format(at)}`;
}

/** A file's size in the largest unit that keeps it above one. */
export function bytesWords(bytes: number): string {
  if (bytes < 1024) return `${String(bytes)} bytes`;
  if (bytes < 1024 * 1024) return `${(bytes / 1024).toFixed(1)} KiB`;
  return `${(bytes / 1024 / 1024).toFixed(1)} MiB`;
}

/** An instrument's accuracy as its data sheet writes it: ±(percent % of reading + constant unit). */
export function accuracyWords(accuracy: { percent: number; constant: number }, unit: string): string {
  return `±(${String(accuracy.percent)} % + ${String(accuracy.constant)} ${unit})`;
}
