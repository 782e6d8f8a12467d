/** What stands in a cell: a text, a plain number, or nothing. */
export type CsvCell = string | number | null;

/** Reckons with spreadsheets that take a text for a formula: those that begin so get an apostrophe, which they do not show. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * A table as CSV: RFC 4180, UTF-8, lines ended by CR LF, the heads as its first record. Numbers are plain: a point, no
 * grouping, no unit.
 */
export function csvOf(heads: readonly string[], rows: readonly (readonly CsvCell[])[]): string {
  return [heads, ...rows].map((row) => `${row.map(cellOf).join(',')}\r\n`).join('');
}

function cellOf(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
