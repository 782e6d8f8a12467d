import { percent } from '../../parts/index.ts';

/** How the review writes its figures. */

const whole = new Intl.NumberFormat('en-GB');

/** A count, in groups of three. */
export function countWords(count: number): string {
  return whole.format(count);
}

/** A count and what is counted: `1 job`, `1,204 jobs`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${whole.format(count)} ${count === 1 ? one : many}`;
}

/** An interval of shares: `78 to 85 %`; with a decimal where its ends would look alike. */
export function rangeWords(low: number, high: number): string {
  const words = percent(low) === percent(high) && low < high ? finePercent : percent;
  return `${words(low).replace(/\u202f%$/u, '')} to ${words(high)}`;
}

/** A share with one decimal, where whole percents would hide what it is about. */
export function finePercent(share: number): string {
  return `${(share * 100).toFixed(1)}\u202f%`;
}

/** An interval of shares with one decimal. */
export function fineRange(low: number, high: number): string {
  return `${finePercent(low).replace(/\u202f%$/u, '')} to ${finePercent(high)}`;
}

/** A chance that something is no more than chance. */
export function chanceWords(chance: number): string {
  if (chance < 0.001) return '<0.001';
  if (chance > 0.999 && chance < 1) return '>0.999';
  return chance.toFixed(chance < 0.1 ? 3 : 2);
}

/** A count that would be expected, which is no whole number: `4.3`, `118`. */
export function expectedWords(expected: number): string {
  return expected < 100 ? expected.toFixed(1) : wholeWords(expected);
}

/** Minutes as a length of time that one can picture: hours from two of them on. */
export function lengthWords(minutes: number): string {
  const size = Math.abs(minutes);
  if (size < 10) return `${signed(minutes, (one) => String(Math.round(one * 10) / 10))} min`;
  return size < 120 ? `${signed(minutes, wholeWords)} min` : `${signed(minutes / 60, wholeWords)} h`;
}

/** Minutes without their unit, for a column that says it. */
export function minuteFigure(minutes: number): string {
  return signed(minutes, (size) => (size < 10 ? size.toFixed(1) : wholeWords(size)));
}

function wholeWords(size: number): string {
  return whole.format(Math.round(size));
}

/** With the minus sign that figures are set with. */
function signed(value: number, words: (size: number) => string): string {
  return value < 0 ? `−${words(-value)}` : words(value);
}
