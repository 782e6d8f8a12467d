import { chanceOfNoLikelier, discreteOf } from './discrete.ts';
import { marginsOf, type TwoByTwo } from './two-by-two.ts';

/**
 * The chance, were rows and columns independent, of a table with these margins that is no likelier than this one: Fisher's
 * exact test, two-sided by small chances (Fisher 1935, The Design of Experiments, ch. 2; R's fisher.test). 1 where a margin is 0.
 */
export function fisherExact(table: TwoByTwo): number {
  const { rows, columns, all } = marginsOf(table);
  const [row, column] = [rows[0], columns[0]];
  const low = Math.max(0, row + column - all);
  const high = Math.min(row, column);
  const mode = Math.min(high, Math.max(low, Math.floor(((row + 1) * (column + 1)) / (all + 2))));
  const ratio = (k: number): number => (((row - k) / (k + 1)) * (column - k)) / (all - row - column + k + 1);
  return chanceOfNoLikelier(discreteOf(low, high, mode, ratio), table[0][0]);
}
