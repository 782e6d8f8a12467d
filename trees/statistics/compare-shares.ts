import { chiSquare } from './chi-square.ts';
import { fisherExact } from './fisher-exact.ts';
import { marginsOf, type TwoByTwo } from './two-by-two.ts';

/** Below this count expected in some cell, chi-square's chances are no good. */
const FEW = 5;

/**
 * The two-sided chance of shares that differ as much between a table's rows, by the test that suits its counts: Fisher's
 * exact one where a count below five is expected in some cell, else chi-square (Cochran 1954, Biometrics 10:417-451).
 */
export function compareShares(table: TwoByTwo): {
  readonly method: 'exact' | 'chi-square';
  readonly chance: number;
} {
  const { rows, columns, all } = marginsOf(table);
  const least = (Math.min(...rows) * Math.min(...columns)) / Math.max(1, all);
  return least < FEW
    ? { method: 'exact', chance: fisherExact(table) }
    : { method: 'chi-square', chance: chiSquare(table).chance };
}
