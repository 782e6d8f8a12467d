/** A table of examples as a problem: the class (last column) is the finding, each attribute a test, with relative frequencies. */
export function frequencies(rows: readonly (readonly string[])[], columns: readonly string[]) {
  const attributes = columns.slice(0, -1);
  const seen = (column: number) => [...new Set(rows.map((row) => row[column] ?? ''))];
  const classes = seen(attributes.length);
  const among = (label: string) => rows.filter((row) => row.at(-1) === label);
  const share = (label: string, column: number, value: string) =>
    among(label).filter((row) => row[column] === value).length / among(label).length;
  return {
    weights: Object.fromEntries(classes.map((label) => [label, among(label).length])),
    tests: Object.fromEntries(attributes.map((attribute, column) => [attribute, seen(column)])),
    expects: Object.fromEntries(
      classes.map((label) => [
        label,
        Object.fromEntries(
          attributes.map((attribute, column) => [
            attribute,
            Object.fromEntries(seen(column).map((value) => [value, share(label, column, value)])),
          ]),
        ),
      ]),
    ),
  };
}
