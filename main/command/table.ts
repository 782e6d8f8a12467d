/** A table in plain text: columns two spaces apart, those named in `right` flush right, the last as long as it is. */
export function table(
  rows: readonly (readonly string[])[],
  right: readonly number[] = [],
): readonly string[] {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  const cell = (text: string, column: number): string => {
    const width = widths[column] ?? 0;
    return right.includes(column) ? text.padStart(width) : text.padEnd(width);
  };
  return rows.map((row) => `  ${row.map(cell).join('  ')}`.trimEnd());
}
