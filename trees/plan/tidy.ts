/** Shares as they are written may be off by this part of themselves. */
const NEAR = 0.005;
/** Weights of more digits than these are not written only so that they add up. */
const FEW_DIGITS = 3;
const MOST_DIGITS = 15;

/**
 * Weights with no more digits than it takes to keep each one's share of them, and their sum, to within half a percent of itself, and a sum of
 * `total` where the largest can make it up in {@link FEW_DIGITS} digits. None that is more than 0 becomes 0.
 */
export function tidyWeights(weights: readonly number[], total: number): readonly number[] {
  for (let digits = 1; digits <= MOST_DIGITS; digits += 1) {
    const rounded = weights.map((weight) => Number(weight.toPrecision(digits)));
    const summing = withRest(rounded, total);
    if (hasFewDigits(summing[largestOf(rounded)] ?? 0) && isNear(summing, weights)) return summing;
    if (isNear(rounded, weights)) return rounded;
  }
  return weights;
}

/** Shares that sum to 1 with no more digits than it takes to keep each to within half a percent of itself; the largest is what the others leave. */
export function tidyShares(shares: readonly number[]): readonly number[] {
  for (let digits = 1; digits <= MOST_DIGITS; digits += 1) {
    const summing = withRest(
      shares.map((share) => Number(share.toPrecision(digits))),
      1,
    );
    if (isNear(summing, shares)) return summing;
  }
  return shares;
}

/** With what the others leave of a total in the place of the largest. */
function withRest(values: readonly number[], total: number): readonly number[] {
  const largest = largestOf(values);
  const others = sum(values) - (values[largest] ?? 0);
  // Sums of decimals are off in their last binary places.
  const rest = Number((total - others).toPrecision(MOST_DIGITS - 1));
  return values.map((value, at) => (at === largest ? rest : value));
}

function largestOf(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

function hasFewDigits(value: number): boolean {
  return Number(value.toPrecision(FEW_DIGITS)) === value;
}

function isNear(written: readonly number[], weights: readonly number[]): boolean {
  const [so, whole] = [sum(written), sum(weights)];
  if (Math.abs(so - whole) > NEAR * whole) return false;
  return weights.every((weight, at) => {
    const share = weight / whole;
    return Math.abs((written[at] ?? 0) / so - share) <= NEAR * share;
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((so, value) => so + value, 0);
}
