import { expect, test } from 'vitest';
import { beliefOf, chosen } from '../../trees/belief/index.ts';
import { modelOf, product, SYMPTOM } from './model-of.ts';
import values from './values/naive-bayes.json' with { type: 'json' };

/** Relative frequencies of each attribute's values among the rows of each class. */
function frequencies(rows: readonly (readonly string[])[], columns: readonly string[]) {
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

test.each(values.checks)('$id: $source ($basis)', ({ columns, rows, given, expected, tolerance }) => {
  const model = modelOf(frequencies(rows, columns));
  expect(Math.abs(product(model, 'yes', given) - expected.yes)).toBeLessThanOrEqual(tolerance.products);
  expect(Math.abs(product(model, 'no', given) - expected.no)).toBeLessThanOrEqual(tolerance.products);
  const observations = Object.entries(given).map(([attribute, value]) => chosen(attribute, value));
  const [likeliest] = beliefOf(model, SYMPTOM, { observations, failed: [] }).findings;
  expect(likeliest?.finding).toBe('no');
  expect(Math.abs((likeliest?.probability ?? 0) - expected.share)).toBeLessThanOrEqual(tolerance.share);
});
