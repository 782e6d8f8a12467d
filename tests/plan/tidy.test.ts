import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tidyShares, tidyWeights } from '../../trees/plan/tidy.ts';

const arbitraryWeights = fc
  .array(fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max: 1000, noNaN: true })), {
    minLength: 1,
    maxLength: 12,
  })
  .filter((weights) => weights.some((weight) => weight > 0));

const sum = (values: readonly number[]): number => values.reduce((so, value) => so + value, 0);
const digitsOf = (value: number): number =>
  value.toExponential().replace(/e.*/, '').replace('.', '').replace(/0+$/, '').length;

function expectNear(written: readonly number[], weights: readonly number[]): void {
  weights.forEach((weight, at) => {
    const share = weight / sum(weights);
    expect(Math.abs((written[at] ?? NaN) / sum(written) - share)).toBeLessThanOrEqual(0.005 * share + 1e-15);
    expect((written[at] ?? NaN) > 0).toBe(weight > 0);
  });
}

describe('weights as a person would write them', () => {
  it('are whole units where that is near enough, and come to what there is', () => {
    expect(tidyWeights([1000 / 3, 2000 / 3], 1000)).toEqual([333, 667]);
    expect(tidyWeights([221.318204, 778.681796], 1000)).toEqual([221, 779]);
    expect(tidyWeights([400, 600], 1000)).toEqual([400, 600]);
    expect(tidyWeights([0.0123456, 999.9876544], 1000)).toEqual([0.0123, 1000]);
    expect(tidyWeights([0, 57.1428571, 28.5714286], 85.7142857)).toEqual([0, 57.1, 28.6]);
    // Two are largest once rounded, and only one of them makes up the sum.
    expect(tidyWeights([995, 995.02499951, 0.000140486], 1990.025139996)).toEqual([995, 995, 0.00014]);
  });

  it('keep every share within 0.5 % of itself in four digits at most, and none that is possible becomes 0', () => {
    fc.assert(
      fc.property(arbitraryWeights, (weights) => {
        const written = tidyWeights(weights, sum(weights));
        expectNear(written, weights);
        for (const weight of written) expect(digitsOf(weight)).toBeLessThanOrEqual(4);
        expect(Math.abs(sum(written) / sum(weights) - 1)).toBeLessThanOrEqual(0.005 + 1e-12);
      }),
    );
  });
});

describe('shares as a person would write them', () => {
  it('sum to 1 within 1e-12, each within 0.5 % of itself, and none that is possible becomes 0', () => {
    expect(tidyShares([1 / 3, 2 / 3])).toEqual([0.333, 0.667]);
    fc.assert(
      fc.property(arbitraryWeights, (weights) => {
        const shares = weights.map((weight) => weight / sum(weights));
        const written = tidyShares(shares);
        expectNear(written, shares);
        expect(Math.abs(sum(written) - 1)).toBeLessThan(1e-12);
      }),
    );
  });
});
