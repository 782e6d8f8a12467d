/** So many rows are drawn at first, or two more where that is all of them. */
export const FEW = 12;

/** The rows of a plot that are drawn: the first ones, and all of them once that is asked for. */
export class FewRows {
  all = $state(false);

  of<Row>(rows: readonly Row[]): readonly Row[] {
    return this.all || rows.length <= FEW + 2 ? rows : rows.slice(0, FEW);
  }
}
