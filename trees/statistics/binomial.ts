import { discreteOf, type Discrete } from './discrete.ts';

/** The binomial distribution of `of` (>= 0) trials that each succeed with `chance` (0..1). Takes sqrt(of) steps, not `of`. */
export function binomial(of: number, chance: number): Discrete {
  const odds = chance / (1 - chance);
  const mode = Math.min(of, Math.floor((of + 1) * chance));
  return discreteOf(0, of, mode, (k) => ((of - k) / (k + 1)) * odds);
}
