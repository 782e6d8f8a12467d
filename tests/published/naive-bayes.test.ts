import { expect, test } from 'vitest';
import { beliefOf, chosen } from '../../trees/belief/index.ts';
import { frequencies } from './frequencies.ts';
import { modelOf, product, SYMPTOM } from './model-of.ts';
import values from './values/naive-bayes.json' with { type: 'json' };

test.each(values.checks)('$id: $source ($basis)', ({ columns, rows, given, expected, tolerance }) => {
  const model = modelOf(frequencies(rows, columns));
  expect(Math.abs(product(model, 'yes', given) - expected.yes)).toBeLessThanOrEqual(tolerance.products);
  expect(Math.abs(product(model, 'no', given) - expected.no)).toBeLessThanOrEqual(tolerance.products);
  const observations = Object.entries(given).map(([attribute, value]) => chosen(attribute, value));
  const [likeliest] = beliefOf(model, SYMPTOM, { observations, failed: [] }).findings;
  expect(likeliest?.finding).toBe('no');
  expect(Math.abs((likeliest?.probability ?? 0) - expected.share)).toBeLessThanOrEqual(tolerance.share);
});
