import type { ReviewSlice } from '../../../main/contract/index.ts';
import { csvOf, type CsvCell } from '../csv.ts';
import { rangeWords } from '../words/figures.ts';

/** A column of a table of figures: what it shows, what it exports, and what can be done with its cells. */
export interface Column<Row> {
  readonly title: string;
  /** What the title leaves unsaid. */
  readonly about?: string;
  readonly text: (row: Row) => string;
  /** Its columns in the export; none where it says nothing of its own. */
  readonly plain: readonly { readonly head: string; readonly cell: (row: Row) => CsvCell }[];
  /** What stands behind its text, softer: which tree it is of, say. */
  readonly soft?: (row: Row) => string;
  readonly isText?: boolean;
  /** It only goes out with the export. */
  readonly isHidden?: boolean;
  /** The jobs that the figure stands for. */
  readonly slice?: (row: Row) => ReviewSlice | null;
  /** Where its words lead. */
  readonly jump?: (row: Row) => string | null;
  /** What rows are sorted by; a column without it cannot be sorted by. */
  readonly order?: (row: Row) => number | string;
}

/** A column of whole numbers or measures, exported as it is. */
export function measure<Row>(
  title: string,
  head: string,
  value: (row: Row) => number | null,
  words: (value: number) => string,
  more: Partial<Column<Row>> = {},
): Column<Row> {
  const text = (row: Row): string => {
    const one = value(row);
    return one === null ? '–' : words(one);
  };
  return { title, text, plain: [{ head, cell: value }], ...more };
}

/** The ends of an interval; null where an end is not known. */
export interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

/** A column of 95 % intervals by a stated method, each end by itself in the export; – where there is none. */
export function interval<Row>(
  method: string,
  of: (row: Row) => Ends | null,
  words: (low: number, high: number) => string = rangeWords,
): Column<Row> {
  const text = (row: Row): string => {
    const { low, high } = of(row) ?? { low: null, high: null };
    return low === null || high === null ? '–' : words(low, high);
  };
  return {
    title: '95\u202f%',
    about: `95\u202f% interval (${method})`,
    text,
    plain: [
      { head: 'low', cell: (row) => of(row)?.low ?? null },
      { head: 'high', cell: (row) => of(row)?.high ?? null },
    ],
  };
}

/** All rows of a table as CSV, whatever of it is shown. */
export function tableCsv<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const plain = columns.flatMap((column) => column.plain);
  return csvOf(
    plain.map(({ head }) => head),
    rows.map((row) => plain.map(({ cell }) => cell(row))),
  );
}

export interface Sorting {
  readonly column: number;
  readonly descending: boolean;
}

/** The rows as somebody sorted them; as they came where nobody did. Those alike stay in their order. */
export function sortedRows<Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  sorting: Sorting | null,
): readonly Row[] {
  const order = sorting === null ? undefined : columns[sorting.column]?.order;
  if (sorting === null || order === undefined) return rows;
  const sign = sorting.descending ? -1 : 1;
  return rows.toSorted((a, b) => sign * compared(order(a), order(b)));
}

function compared(a: number | string, b: number | string): number {
  if (typeof a === 'string' || typeof b === 'string') return String(a).localeCompare(String(b), 'en');
  return a - b;
}
