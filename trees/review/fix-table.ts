import { rateOf } from '../statistics/index.ts';
import { FIRST_TIME, STILL_OPEN } from './choose.ts';
import type { FirstTimeFix } from './figures.ts';

/** Jobs by code and flags: entry code x FLAGS + flags. */
export type FixTable = Uint32Array;

/** As many entries a code as there are flags. */
export const FLAGS = 4;

export function fixTable(codes: number): FixTable {
  return new Uint32Array(codes * FLAGS);
}

/** Jobs of a code. */
export function closedIn(table: FixTable, code: number): number {
  let sum = 0;
  for (let flags = 0; flags < FLAGS; flags += 1) sum += table[code * FLAGS + flags] ?? 0;
  return sum;
}

/** Jobs of a code that were fixed the first time. */
export function fixedIn(table: FixTable, code: number): number {
  const first = code * FLAGS;
  return (table[first + FIRST_TIME] ?? 0) + (table[first + (FIRST_TIME | STILL_OPEN)] ?? 0);
}

/** First-time fix of one code's jobs. */
export function fixOf(table: FixTable, code: number): FirstTimeFix {
  const closed = closedIn(table, code);
  const fixed = fixedIn(table, code);
  const { share, low, high } = rateOf(fixed, closed);
  const stillOpen = table[code * FLAGS + (FIRST_TIME | STILL_OPEN)] ?? 0;
  const judgedFixed = table[code * FLAGS + FIRST_TIME] ?? 0;
  const judged = { closed: judgedFixed + (table[code * FLAGS] ?? 0), fixed: judgedFixed };
  return { closed, fixed, rate: share, low, high, stillOpen, judged };
}

/** Adds up codes: by each number that `into` gives one of them, of which there are so many. */
export function mergeCodes(table: FixTable, into: (code: number) => number, numbers: number): FixTable {
  const merged = fixTable(numbers);
  for (let at = 0; at < table.length; at += 1) {
    const place = into(Math.floor(at / FLAGS)) * FLAGS + (at % FLAGS);
    merged[place] = (merged[place] ?? 0) + (table[at] ?? 0);
  }
  return merged;
}
