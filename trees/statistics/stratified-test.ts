import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { chanceOfNoLikelier, type Discrete } from './discrete.ts';
import { hypergeometric } from './hypergeometric.ts';
import { marginsOf, type TwoByTwo } from './two-by-two.ts';

/** The count in the first cell of several tables, against what their margins alone let expect. */
export interface StratifiedCount {
  readonly count: number;
  readonly expected: number;
  readonly variance: number;
  /** The two-sided chance, were rows and columns independent in every table, of a count no likelier than this one. */
  readonly chance: number;
}

/** From this variance on (five standard deviations' room on either side) the normal distribution stands for the exact one. */
const LARGE = 25;
/** A chance that is less than this share of the greatest leaves no trace in what is told of them. */
const TRACE = 1e-20;

/**
 * Whether rows differ in their columns where like is held against like: tables, each of things alike, added up by the counts in
 * their first cells (Mantel & Haenszel 1959, J. Nat. Cancer Inst. 22:719-748). The chance is that of the exact conditional test
 * (Agresti 1990, Categorical Data Analysis, 7.4; R's mantelhaen.test with exact = TRUE): the sum of independent hypergeometric
 * counts, two-sided by small chances; 0 where it is below 1e-18. Where the variance is 25 or more, a normal variable's with Yates's
 * correction, as mantelhaen.test has it without `exact`. With a table a day of who was at risk it is the log-rank test (Mantel
 * 1966, Cancer Chemotherapy Reports 50:163-170). 1 where no table has room to differ.
 */
export function stratifiedTest(tables: readonly TwoByTwo[]): StratifiedCount {
  let [count, expected, variance] = [0, 0, 0];
  for (const table of tables) {
    const { rows, columns, all } = marginsOf(table);
    count += table[0][0];
    if (all === 0) continue;
    expected += (rows[0] * columns[0]) / all;
    if (all > 1) variance += ((rows[0] * rows[1]) / all) * ((columns[0] * columns[1]) / all / (all - 1));
  }
  const chance = variance < LARGE ? exactChance(tables, count) : normalChance(count - expected, variance);
  return { count, expected, variance, chance };
}

function normalChance(off: number, variance: number): number {
  return 2 * cdf(-Math.max(0, Math.abs(off) - 0.5) / Math.sqrt(variance), 0, 1);
}

function exactChance(tables: readonly TwoByTwo[], count: number): number {
  let sum: Discrete = { first: 0, chances: Float64Array.of(1) };
  for (const table of tables) sum = added(sum, trimmed(hypergeometric(table)));
  return chanceOfNoLikelier(sum, count);
}

/** The sum of two independent numbers. */
function added(one: Discrete, other: Discrete): Discrete {
  const first = one.first + other.first;
  if (other.chances.length === 1) return { first, chances: one.chances };
  const chances = new Float64Array(one.chances.length + other.chances.length - 1);
  for (const [at, chance] of one.chances.entries()) {
    for (let more = 0; more < other.chances.length; more += 1)
      chances[at + more] = (chances[at + more] ?? 0) + chance * (other.chances[more] ?? 0);
  }
  return trimmed({ first, chances });
}

/** Without the ends that leave no trace: a sum of many tables would have them grow without end. */
function trimmed({ first, chances }: Discrete): Discrete {
  const least = TRACE * chances.reduce((most, chance) => Math.max(most, chance), 0);
  const from = chances.findIndex((chance) => chance >= least);
  const to = chances.findLastIndex((chance) => chance >= least);
  return { first: first + from, chances: chances.subarray(from, to + 1) };
}
