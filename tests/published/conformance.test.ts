import { describe, expect, test } from 'vitest';
import { readingWeights, standardUncertainty } from '../../trees/belief/index.ts';
import { treeOf } from '../support/trees.ts';
import values from './values/conformance.json' with { type: 'json' };

const { checks, guardBands, standardUncertainty: rectangular } = values;

test.each(checks)('$id: $source ($basis)', (check) => {
  const within = conformance(check);
  expect(Math.abs(within - check.expected)).toBeLessThanOrEqual(check.tolerance);
});

describe(`guard bands: ${guardBands.source} (${guardBands.basis})`, () => {
  test.each(guardBands.rows)(
    'w = $ratio U leaves a risk of $expected',
    ({ ratio, expected, printedBound }) => {
      const risk = 1 - conformance({ reading: 5 - ratio * 2 * 0.01, u: 0.01, upper: 5 });
      expect(Math.abs(risk - expected)).toBeLessThanOrEqual(guardBands.tolerance);
      expect(risk).toBeLessThanOrEqual(printedBound + 1e-12);
    },
  );
});

test(`a rectangular accuracy’s standard uncertainty: ${rectangular.source} (${rectangular.basis})`, () => {
  const { reading, percent, constant, expected, tolerance } = rectangular;
  expect(Math.abs(standardUncertainty(reading, { percent, constant }) - expected)).toBeLessThan(tolerance);
});

interface Conformance {
  readonly reading: number;
  readonly u: number;
  readonly lower?: number | undefined;
  readonly upper: number;
}

/** The weight of the band between the limits. The instrument's accuracy is the half-width that gives u. */
function conformance({ reading, u, lower, upper }: Conformance): number {
  const below = lower === undefined ? {} : { below: { title: 'Below', band: { to: lower } } };
  const within = { title: 'Within', band: { ...(lower === undefined ? {} : { from: lower }), to: upper } };
  const tree = treeOf({
    format: 'ohmward-tree/1',
    id: 'published',
    title: 'A published problem',
    unit: { family: 'None' },
    tests: {
      measured: {
        title: 'Measured',
        ask: 'Measure.',
        instrument: 'dc-volts',
        minutes: 1,
        reading: { unit: 'V' },
        results: { within, ...below, above: { title: 'Above', band: { from: upper } } },
      },
    },
    findings: {},
    symptoms: {},
  });
  const accuracy = { percent: 0, constant: u * Math.sqrt(3) };
  const measured = tree.tests['measured'];
  if (measured === undefined) throw new Error('the tree has its test');
  const weighed = readingWeights(measured, { value: reading, accuracy });
  if (!weighed.ok) throw new Error(weighed.message);
  return weighed.weights['within'] ?? Number.NaN;
}
