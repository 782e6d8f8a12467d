import { marginsOf, type TwoByTwo } from './two-by-two.ts';

/** What the count in a table's first cell can be, its likeliest value, and P(k + 1) / P(k), which falls with k. */
export interface Hypergeometric {
  readonly low: number;
  readonly high: number;
  readonly mode: number;
  readonly ratio: (k: number) => number;
}

/** The distribution of the count in a table's first cell, given its margins, were rows and columns independent (Fisher 1935). */
export function hypergeometric(table: TwoByTwo): Hypergeometric {
  const { rows, columns, all } = marginsOf(table);
  const [row, column] = [rows[0], columns[0]];
  const low = Math.max(0, row + column - all);
  const high = Math.min(row, column);
  const mode = Math.min(high, Math.max(low, Math.floor(((row + 1) * (column + 1)) / (all + 2))));
  const ratio = (k: number): number => (((row - k) / (k + 1)) * (column - k)) / (all - row - column + k + 1);
  return { low, high, mode, ratio };
}
