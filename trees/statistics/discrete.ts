/** Chances of the whole numbers from `first` on. They sum to one. */
export interface Discrete {
  readonly first: number;
  readonly chances: Float64Array;
}

/**
 * The chances of a distribution on the whole numbers `low`..`high` that rises to `mode` and falls after it, from
 * `ratio(k)` = P(k + 1) / P(k), which falls with k. Multiplied outward from the mode and divided by their sum, so that no
 * logarithm of a factorial costs digits; left off where they are below what a number can hold, which for a binomial leaves
 * some 75 standard deviations.
 */
export function discreteOf(low: number, high: number, mode: number, ratio: (k: number) => number): Discrete {
  const below: number[] = [];
  for (let k = mode - 1, weight = 1; k >= low; k--) {
    weight /= ratio(k);
    if (weight === 0) break;
    below.push(weight);
  }
  const above: number[] = [];
  for (let k = mode, weight = 1; k < high; k++) {
    weight *= ratio(k);
    if (weight === 0) break;
    above.push(weight);
  }
  const chances = Float64Array.from([...below.reverse(), 1, ...above]);
  const total = chances.reduce((sum, weight) => sum + weight, 0);
  return { first: mode - below.length, chances: chances.map((weight) => weight / total) };
}

/** Ties: chances that differ by less than this share of themselves count as equal, as R's binom.test and fisher.test have it. */
const EQUAL = 1 + 1e-7;

/** The chance of a number that is no likelier than `observed`: a two-sided exact test's. */
export function chanceOfNoLikelier({ first, chances }: Discrete, observed: number): number {
  const limit = (chances[observed - first] ?? 0) * EQUAL;
  const sum = chances.reduce((total, chance) => (chance <= limit ? total + chance : total), 0);
  return Math.min(1, sum);
}
