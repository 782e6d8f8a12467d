import { chanceOfNoLikelier, discreteOf } from './discrete.ts';
import { hypergeometric } from './hypergeometric.ts';
import type { TwoByTwo } from './two-by-two.ts';

/**
 * The chance, were rows and columns independent, of a table with these margins that is no likelier than this one: Fisher's
 * exact test, two-sided by small chances (Fisher 1935, The Design of Experiments, ch. 2; R's fisher.test). 1 where a margin is 0.
 */
export function fisherExact(table: TwoByTwo): number {
  const { low, high, mode, ratio } = hypergeometric(table);
  return chanceOfNoLikelier(discreteOf(low, high, mode, ratio), table[0][0]);
}
