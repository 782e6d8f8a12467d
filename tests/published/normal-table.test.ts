import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { describe, expect, test } from 'vitest';
import values from './values/normal-table.json' with { type: 'json' };

/** The distribution function that readings are weighed with, held to printed tables. */
describe.each(values.tables)('$id: $source ($basis)', ({ rows, tolerance }) => {
  test.each(rows)('at %d it is %d', (z = 0, expected = 0) => {
    expect(Math.abs(cdf(z, 0, 1) - expected)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(1 - cdf(-z, 0, 1) - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe(`far tail: ${values.farTail.source} (${values.farTail.basis})`, () => {
  test.each(values.farTail.rows)('beyond %d there is %d', (z = 0, expected = 1) => {
    expect(Math.abs(cdf(-z, 0, 1) / expected - 1)).toBeLessThanOrEqual(values.farTail.relativeTolerance);
  });
});
