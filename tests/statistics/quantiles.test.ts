import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantiles } from '../../trees/statistics/index.ts';

const shares = [0, 0.001, 0.05, 0.25, 1 / 3, 0.5, 0.75, 0.9, 0.999, 1];

/** Type 7, from the values in order. */
function bySorting(values: Uint32Array | Float64Array, share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const [below = NaN, above = below] = sorted.slice(Math.floor(at), Math.floor(at) + 2);
  return below + (at - Math.floor(at)) * (above - below);
}

/** Values of a certain spread from a seed: some alike, some far out. */
function drawn(length: number, bits: number, seed: number): Uint32Array {
  let state = seed >>> 0;
  return Uint32Array.from({ length }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> (32 - bits);
  });
}

describe('quantiles', () => {
  it('are those of the sorted values, of few and of many, alike or spread over all that 32 bits hold', () => {
    const sets = fc.record({
      length: fc.oneof(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 4000, max: 9000 })),
      bits: fc.integer({ min: 1, max: 32 }),
      seed: fc.integer(),
    });
    fc.assert(
      fc.property(sets, ({ length, bits, seed }) => {
        const values = drawn(length, bits, seed);
        expect(quantiles(values, shares)).toEqual(shares.map((share) => bySorting(values, share)));
      }),
      { numRuns: 60 },
    );
  });

  it('are those of the sorted values where they are broken or below zero', () => {
    const broken = fc.float64Array({ minLength: 1, maxLength: 6000, min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(broken, (values) => {
        const ours = quantiles(values, shares) ?? [];
        expect(ours).toHaveLength(shares.length);
        shares.forEach((share, index) => {
          expect(ours[index]).toBeCloseTo(bySorting(values, share), 9);
        });
      }),
    );
  });

  it('are the value itself where all are alike, the largest that 32 bits hold among them', () => {
    expect(quantiles(new Uint32Array(5000).fill(0xffff_ffff), [0, 0.5, 1])).toEqual(
      Array.from({ length: 3 }, () => 0xffff_ffff),
    );
    expect(quantiles(new Uint32Array(5000), [0, 0.5, 1])).toEqual([0, 0, 0]);
  });

  it('come in the order in which they were asked for', () => {
    expect(quantiles(Uint32Array.of(10, 30, 20), [1, 0, 0.75])).toEqual([30, 10, 25]);
  });

  it('leave the values as they are', () => {
    for (const length of [10, 5000]) {
      const values = drawn(length, 20, 7);
      const before = values.slice();
      quantiles(values, [0.5]);
      expect(values).toEqual(before);
    }
  });

  it('are none of none', () => {
    expect(quantiles(new Uint32Array(), [0.5])).toBeNull();
  });
});
