import fc from 'fast-check';
import { expect, test } from 'vitest';
import { huffmanLength, planExact } from '../../trees/plan/index.ts';
import { questionOf, type PlanProblem } from './question-of.ts';
import values from './values/huffman.json' with { type: 'json' };

const { lengths, equality, probes, bound } = values;

test.each(lengths)('$id: $source ($basis)', ({ weights, expected, entropy, tolerance }) => {
  const length = huffmanLength(weights);
  expect(Math.abs(length - expected)).toBeLessThanOrEqual(tolerance.length);
  const bits = weights.reduce((sum, weight) => sum - weight * Math.log2(weight), 0);
  expect(Math.abs(bits - entropy)).toBeLessThanOrEqual(tolerance.entropy);
  expect(length).toBeGreaterThanOrEqual(bits);
  expect(length).toBeLessThan(bits + 1);
});

test(`every two-way split at a minute: ${equality.source} (${equality.basis})`, () => {
  const { weights, expected, tolerance } = equality;
  // The first message is always on the first side, so that no split comes twice; the one with nothing on the other is none.
  const splits = Array.from({ length: 2 ** (weights.length - 1) - 1 }, (_, split) => 2 * (split + 1));
  const table = weights.map((_, message) => splits.map((split) => (split >> message) & 1));
  const plan = planExact(questionOf(tabled(weights, table, 2)));
  expect(splits).toHaveLength(15);
  expect(Math.abs(plan.expectedTotal - expected)).toBeLessThanOrEqual(tolerance);
  expect(Math.abs(plan.expectedTotal - huffmanLength(weights))).toBeLessThanOrEqual(tolerance);
});

test(`probes that say before, here or after along a chain: ${probes.source} (${probes.basis})`, () => {
  const { keys, gaps, searchCost, expected, tolerance } = probes;
  const places = gaps.flatMap((gap, place) => [gap, ...keys.slice(place, place + 1)]);
  const table = places.map((_, place) => keys.map((__, key) => Math.sign(place - (2 * key + 1)) + 1));
  const plan = planExact(questionOf(tabled(places, table, 3)));
  expect(Math.abs(plan.expectedTotal - expected)).toBeLessThanOrEqual(tolerance);
  const gapsInAll = gaps.reduce((sum, gap) => sum + gap, 0);
  expect(Math.abs(plan.expectedTotal + gapsInAll - searchCost)).toBeLessThanOrEqual(tolerance);
});

test(`never above the exact optimum of tests of a minute, within 1e-9: ${bound.source} (${bound.basis})`, () => {
  fc.assert(
    fc.property(randomTable(), ({ weights, table, arity }) => {
      const groups = new Map<string, number>();
      const whole = weights.reduce((sum, weight) => sum + weight, 0);
      for (const [row, results] of table.entries()) {
        const weight = (weights[row] ?? 0) / whole;
        groups.set(results.join(), (groups.get(results.join()) ?? 0) + weight);
      }
      const plan = planExact(questionOf(tabled(weights, table, arity)));
      expect(huffmanLength([...groups.values()], arity)).toBeLessThanOrEqual(plan.expectedTotal + 1e-9);
    }),
    { numRuns: 200 },
  );
});

/** Up to seven findings and six tests; what no test tells apart is one group, and one message of the code. */
function randomTable() {
  return fc
    .record({
      arity: fc.constantFrom(2, 3),
      tests: fc.integer({ min: 1, max: 6 }),
      weights: fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 2, maxLength: 7 }),
    })
    .chain(({ arity, tests, weights }) => {
      const row = fc.array(fc.nat({ max: arity - 1 }), { minLength: tests, maxLength: tests });
      const table = fc.array(row, { minLength: weights.length, maxLength: weights.length });
      return fc.record({ arity: fc.constant(arity), weights: fc.constant(weights), table });
    });
}

/** Findings in rows, tests of a minute in columns, the place of the result in each cell. */
function tabled(
  weights: readonly number[],
  table: readonly (readonly number[])[],
  arity: number,
): PlanProblem {
  const results = Array.from({ length: arity }, (_, place) => `result-${String(place)}`);
  const rows = weights.map((weight, row) => [`message-${String(row)}`, weight] as const);
  const expects = rows.map(([id], row) => [
    id,
    Object.fromEntries(
      (table[row] ?? []).map((place, test) => [`test-${String(test)}`, `result-${String(place)}`]),
    ),
  ]);
  const tests = (table[0] ?? []).map((_, place) => [`test-${String(place)}`, { results, minutes: 1 }]);
  return {
    goal: 'isolate',
    weights: Object.fromEntries(rows),
    tests: Object.fromEntries(tests),
    expects: Object.fromEntries(expects),
  };
}
