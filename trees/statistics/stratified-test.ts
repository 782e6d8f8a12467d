import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { chanceOfSum } from './hypergeometric-sum.ts';
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
  const chance = variance < LARGE ? chanceOfSum(tables, count) : normalChance(count - expected, variance);
  return { count, expected, variance, chance };
}

function normalChance(off: number, variance: number): number {
  return 2 * cdf(-Math.max(0, Math.abs(off) - 0.5) / Math.sqrt(variance), 0, 1);
}
