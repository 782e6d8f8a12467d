import type { Tick } from './room.ts';
import { textWidth } from './text-width.ts';
import { thinLabels } from './thin-labels.ts';

const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;
/** Months from one word to the next; all but the first go round with the year. */
const STRIDES = [1, 2, 3, 6] as const;
/** Ems that marks of months are apart at least. */
const CLOSEST = 0.6;

/** The months since year 0 of `YYYY-MM`. */
export function monthNumber(month: string): number {
  return Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1;
}

/** `YYYY-MM` as it is said: `Mar 2026`. */
export function monthWords(month: string): string {
  return `${nameOf(monthNumber(month))} ${month.slice(0, 4)}`;
}

export interface MonthTicks {
  readonly months: readonly Tick[];
  /** Under them: the first month's year, and every January's. */
  readonly years: readonly Tick[];
  /** The line the years stand in: the second, or the first where months are too narrow for their names. */
  readonly yearsLine: 0 | 1;
}

/** Words under months from `first` on, `step` pixels apart, the first at `from`: as many as fit, by whole parts of a year. */
export function monthTicks(first: string, count: number, from: number, step: number, em: number): MonthTicks {
  const start = monthNumber(first);
  const stride = STRIDES.find((months) => months * step >= textWidth('Mmm', em) + em / 2);
  const numbers = Array.from({ length: count }, (_, index) => start + index);
  const place = (number: number): number => from + (number - start) * step;
  return {
    months: numbers
      .filter((number) => step >= em * CLOSEST || number % (stride ?? 12) === 0)
      .map((number) => ({
        at: place(number),
        words: stride !== undefined && number % stride === 0 ? nameOf(number) : null,
      })),
    yearsLine: stride === undefined ? 0 : 1,
    years: yearTicks(
      numbers.filter((number, index) => index === 0 || number % 12 === 0),
      place,
      em,
    ),
  };
}

function yearTicks(
  numbers: readonly number[],
  place: (number: number) => number,
  em: number,
): readonly Tick[] {
  const width = textWidth('0000', em);
  const shown = thinLabels(
    numbers.map((number) => ({ at: place(number), width, rank: number % 12 === 0 ? 0 : 1 })),
    em / 2,
  );
  return numbers.map((number, index) => ({
    at: place(number),
    words: shown[index] === true ? String(Math.floor(number / 12)) : null,
  }));
}

function nameOf(number: number): string {
  return NAMES[number % 12] ?? '';
}
