import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { marginsOf, type TwoByTwo } from './two-by-two.ts';

/**
 * Pearson's chi-square test that rows and columns are independent, no continuity correction: the statistic and the chance
 * of one as large, with one degree of freedom (Pearson 1900, Phil. Mag. 50:157-175; Armitage, Berry & Matthews, Statistical
 * Methods in Medical Research, 4.5). A chi-square of one degree is a normal variable squared: taken in the normal's lower
 * tail, small chances keep their digits. Statistic 0 and chance 1 where a margin is 0.
 */
export function chiSquare(table: TwoByTwo): { readonly statistic: number; readonly chance: number } {
  const [[a, b], [c, d]] = table;
  const { rows, columns, all } = marginsOf(table);
  const margins = rows[0] * rows[1] * columns[0] * columns[1];
  if (margins === 0) return { statistic: 0, chance: 1 };
  const statistic = (all * (a * d - b * c) ** 2) / margins;
  return { statistic, chance: 2 * cdf(-Math.sqrt(statistic), 0, 1) };
}
