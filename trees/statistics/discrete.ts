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
  const below = outward(mode - low, (step) => 1 / ratio(mode - step - 1));
  const above = outward(high - mode, (step) => ratio(mode + step));
  const chances = new Float64Array(below.length + 1 + above.length);
  chances.set(below.reverse());
  chances[below.length] = 1;
  chances.set(above, below.length + 1);
  const total = sumUpTo(chances, Infinity);
  for (let index = 0; index < chances.length; index++) chances[index] = (chances[index] ?? 0) / total;
  return { first: mode - below.length, chances };
}

/** Weights on one side of the mode, whose own is 1: each is the one before it times the step's factor. */
function outward(steps: number, factor: (step: number) => number): number[] {
  const weights: number[] = [];
  for (let step = 0, weight = 1; step < steps; step++) {
    weight *= factor(step);
    if (weight < LEAST) break;
    weights.push(weight);
  }
  return weights;
}

/** The smallest number with all its digits. */
const LEAST = 2 ** -1022;

/** Ties: chances that differ by less than this share of themselves count as equal, as R's binom.test and fisher.test have it. */
const EQUAL = 1 + 1e-7;

/** The chance of a number that is no likelier than `observed`: a two-sided exact test's. */
export function chanceOfNoLikelier({ first, chances }: Discrete, observed: number): number {
  return Math.min(1, sumUpTo(chances, (chances[observed - first] ?? 0) * EQUAL));
}

/** Of those values that are not above `limit`. */
function sumUpTo(values: Float64Array, limit: number): number {
  let sum = 0;
  for (let index = 0; index < values.length; index++) {
    const value = values[index] ?? 0;
    if (value <= limit) sum += value;
  }
  return sum;
}
