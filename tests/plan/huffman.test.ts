import fc from 'fast-check';
import { expect, test } from 'vitest';
import { huffmanLength } from '../../trees/plan/index.ts';

const ARITIES = [2, 3, 4];
const weights = (least: number, most: number) =>
  fc.array(fc.nat({ max: 40 }), { minLength: least, maxLength: most });

test.each(ARITIES)('joins the %i lightest as the naive way does, within 1e-12 of the sum', (arity) => {
  fc.assert(
    fc.property(weights(0, 40), (drawn) => {
      const positive = drawn.filter((weight) => weight > 0);
      const total = positive.reduce((sum, weight) => sum + weight, 0);
      const expected = total === 0 ? 0 : naiveJoins(positive, arity) / total;
      expect(Math.abs(huffmanLength(drawn, arity) - expected)).toBeLessThanOrEqual(1e-12);
    }),
  );
});

test.each(ARITIES)(
  'no way of splitting up to six messages in %i parts or fewer is shorter, within 1e-12',
  (arity) => {
    fc.assert(
      fc.property(weights(1, 6), (drawn) => {
        const positive = drawn.filter((weight) => weight > 0);
        const total = positive.reduce((sum, weight) => sum + weight, 0);
        const expected = total === 0 ? 0 : shortestSplit(positive, arity) / total;
        expect(Math.abs(huffmanLength(drawn, arity) - expected)).toBeLessThanOrEqual(1e-12);
      }),
      { numRuns: 60 },
    );
  },
);

test('does not hang on the order of the weights or on their sum, within 1e-12', () => {
  const drawn = fc.tuple(weights(1, 20), fc.double({ min: 0.01, max: 100, noNaN: true }));
  fc.assert(
    fc.property(drawn, ([list, scale]) => {
      const scaled = list.toReversed().map((weight) => weight * scale);
      expect(Math.abs(huffmanLength(scaled) - huffmanLength(list))).toBeLessThanOrEqual(1e-12);
    }),
  );
});

test.each(ARITIES)('is nothing for one message or none, with %i letters', (arity) => {
  for (const list of [[], [0], [0, 0], [3], [0, 3, 0]]) expect(huffmanLength(list, arity)).toBe(0);
});

/** Filled up with messages that never come until every join can take `arity`, then the lightest joined, sorted anew each time. */
function naiveJoins(list: readonly number[], arity: number): number {
  const heap = [...list];
  while (heap.length > 1 && (heap.length - 1) % (arity - 1) !== 0) heap.push(0);
  let sum = 0;
  while (heap.length > 1) {
    heap.sort((a, b) => a - b);
    const joined = heap.splice(0, arity).reduce((one, other) => one + other, 0);
    sum += joined;
    heap.push(joined);
  }
  return sum;
}

/** The least sum of weight times length over every tree there is. */
function shortestSplit(list: readonly number[], arity: number): number {
  if (list.length < 2) return 0;
  const total = list.reduce((sum, weight) => sum + weight, 0);
  const rests = partitions(list, arity).map((parts) =>
    parts.reduce((sum, part) => sum + shortestSplit(part, arity), 0),
  );
  return total + Math.min(...rests);
}

/** Every way to put a list in two to `most` parts, none empty. */
function partitions(list: readonly number[], most: number): readonly (readonly (readonly number[])[])[] {
  let ways: readonly (readonly (readonly number[])[])[] = [[]];
  for (const weight of list) {
    ways = ways.flatMap((parts) => [
      ...parts.map((part, at) => parts.with(at, [...part, weight])),
      ...(parts.length < most ? [[...parts, [weight]]] : []),
    ]);
  }
  return ways.filter((parts) => parts.length > 1);
}
