import { binomial } from './binomial.ts';
import { chanceOfNoLikelier } from './discrete.ts';

/**
 * The chance that `of` trials which each succeed with `chance` give a count no likelier than `count`: the exact two-sided
 * binomial test by small chances (R's binom.test; Hirji 2006, Exact Analysis of Discrete Data, 2.8). Of none it is 1.
 */
export function binomialTest(count: number, of: number, chance: number): number {
  return chanceOfNoLikelier(binomial(of, chance), count);
}
