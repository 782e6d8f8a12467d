import { expect, test } from 'vitest';
import { huffmanLength, planExact } from '../../trees/plan/index.ts';
import { questionOf, totalWith } from './question-of.ts';
import values from './values/test-sequence.json' with { type: 'json' };

const { probability, fails, expected, tolerance } = values;

const columns = (fails[0] ?? []).map((_, place) => `t${String(place + 1)}`);
const question = questionOf({
  goal: 'isolate',
  weights: Object.fromEntries(probability.map((share, row) => [`s${String(row)}`, share])),
  tests: Object.fromEntries(columns.map((id) => [id, { results: ['pass', 'fail'], minutes: 1 }])),
  expects: Object.fromEntries(
    fails.map((row, state) => [
      `s${String(state)}`,
      Object.fromEntries(columns.map((id, column) => [id, row[column] === 1 ? 'fail' : 'pass'])),
    ]),
  ),
});

test(`six states and five tests: ${values.source} (${values.basis})`, () => {
  const plan = planExact(question);
  expect(Math.abs(plan.expectedTotal - expected.minutes)).toBeLessThanOrEqual(tolerance);
  for (const [place, id] of columns.entries()) {
    const total = expected.byFirstTest[place] ?? Number.NaN;
    expect(Math.abs(totalWith(plan, id) - total)).toBeLessThanOrEqual(tolerance);
  }
});

test(`its Huffman bound: ${values.source} (${values.basis})`, () => {
  expect(Math.abs(huffmanLength(probability) - expected.huffmanBound)).toBeLessThanOrEqual(tolerance);
});
