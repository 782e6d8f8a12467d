/**
 * The chance that `of` trials which each succeed with `chance` give a count no likelier than `count`: the exact two-sided
 * binomial test by small chances (R's binom.test; Hirji 2006, Exact Analysis of Discrete Data, 2.8). Of none it is 1, and 0
 * where it is below what a number can hold. Takes some times sqrt(of) steps, none where it is 0 for certain.
 */
export function binomialTest(count: number, of: number, chance: number): number {
  if (isTooFar(count, of, chance)) return 0;
  const mode = Math.min(of, Math.floor((of + 1) * chance));
  const odds = chance / (1 - chance);
  // Failures fall as successes rise: the side below the mode is the one above it, told of failures.
  const above = { left: of - mode, begin: mode, odds };
  const below = { left: mode, begin: of - mode, odds: 1 / odds };
  const at = count < mode ? weightAfter(below, mode - count) : weightAfter(above, count - mode);
  if (at === 0) return 0;
  const [up, down] = [sumsOf(above, at * EQUAL), sumsOf(below, at * EQUAL)];
  const mid = at * EQUAL >= 1 ? 1 : 0;
  return Math.min(1, (mid + up.unlikely + down.unlikely) / (1 + up.all + down.all));
}

/** One way from the mode, whose own weight is 1. */
interface Side {
  /** Counts on this side. */
  readonly left: number;
  /** What there are of what grows on this side, at the mode. */
  readonly begin: number;
  /** Of what grows against what shrinks. */
  readonly odds: number;
}

/** Ties: chances that differ by less than this share of themselves count as equal, as R's binom.test has it. */
const EQUAL = 1 + 1e-7;
/** The smallest number with all its digits. */
const LEAST = 2 ** -1022;
/** What is a smaller share than this of a sum leaves no trace in it, nor does all that comes after, which falls ever faster. */
const TRACE = 2 ** -70;

function weightAfter({ left, begin, odds }: Side, steps: number): number {
  let weight = 1;
  for (let step = 0; step < steps && weight >= LEAST; step += 1)
    weight *= ((left - step) / (begin + step + 1)) * odds;
  return weight < LEAST ? 0 : weight;
}

/** The weights of a side, and of those no greater than a limit. */
function sumsOf({ left, begin, odds }: Side, limit: number) {
  let [all, unlikely, weight] = [0, 0, 1];
  for (let step = 0; step < left; step += 1) {
    weight *= ((left - step) / (begin + step + 1)) * odds;
    all += weight;
    if (weight > limit) continue;
    unlikely += weight;
    if (weight <= unlikely * TRACE) break;
  }
  return { all, unlikely };
}

/**
 * Whether the count's weight is surely below the smallest number: its chance is at most exp(-n KL(count/n, chance)) (Chernoff
 * 1952, Ann. Math. Statist. 23:493-507), the mode's at least 1/(n + 1).
 */
function isTooFar(count: number, of: number, chance: number): boolean {
  if (of === 0) return false;
  const apart = (some: number, share: number): number =>
    some === 0 ? 0 : some * Math.log(some / (of * share));
  const distance = apart(count, chance) + apart(of - count, 1 - chance);
  return distance - Math.log(of + 1) > -Math.log(LEAST);
}
