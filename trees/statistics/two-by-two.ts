/** Counts by two yes-or-no questions. */
export type TwoByTwo = readonly [readonly [number, number], readonly [number, number]];

/** Sums of a table's rows, of its columns, and of all. */
export interface Margins {
  readonly rows: readonly [number, number];
  readonly columns: readonly [number, number];
  readonly all: number;
}

export function marginsOf([[a, b], [c, d]]: TwoByTwo): Margins {
  return { rows: [a + b, c + d], columns: [a + c, b + d], all: a + b + c + d };
}
