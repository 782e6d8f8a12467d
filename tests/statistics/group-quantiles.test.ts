import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BINS, binOf, groupQuantiles, quantiles } from '../../trees/statistics/index.ts';

const SHARES = [0, 0.25, 1 / 3, 0.5, 0.75, 1];

/** Groups of whole numbers of up to so many bits, alike and far apart. */
const arbitraryGroups = fc
  .tuple(fc.integer({ min: 1, max: 32 }), fc.integer({ min: 1, max: 5 }))
  .chain(([bits, groups]) =>
    fc.array(fc.array(fc.integer({ min: 0, max: 2 ** bits - 1 }), { maxLength: 60 }), {
      minLength: groups,
      maxLength: groups,
    }),
  );

/** In the two passes that it takes, in the order drawn. */
function inTwoPasses(groups: readonly (readonly number[])[]) {
  const counts = new Uint32Array(groups.length * BINS);
  const each = (act: (entry: number, value: number) => void): void =>
    groups.forEach((values, group) => values.forEach((value) => act(group * BINS + binOf(value), value)));
  each((entry) => (counts[entry] = (counts[entry] ?? 0) + 1));
  const laid = groupQuantiles({ groups: groups.length, counts }, SHARES);
  each((entry, value) => {
    const place = laid.next[entry] ?? -1;
    if (place < 0) return;
    laid.values[place] = value;
    laid.next[entry] = place + 1;
  });
  return laid;
}

describe('quantiles of groups', () => {
  it('are those of each group and of all numbers together, to the last digit', () => {
    fc.assert(
      fc.property(arbitraryGroups, (groups) => {
        const laid = inTwoPasses(groups);
        groups.forEach((values, group) =>
          expect(laid.of(group)).toEqual(quantiles(Uint32Array.from(values), SHARES)),
        );
        expect(laid.of(null)).toEqual(quantiles(Uint32Array.from(groups.flat()), SHARES));
      }),
    );
  });

  it('keep few of many numbers that are spread out', () => {
    const { values } = inTwoPasses([Array.from({ length: 20_000 }, (_, place) => 1000 + 17 * place)]);
    expect(values.length).toBeGreaterThan(0);
    expect(values.length).toBeLessThan(1500);
  });
});

describe('bins', () => {
  it('ascend with the numbers and are no wider than a 128th of them', () => {
    const number = fc.integer({ min: 0, max: 2 ** 32 - 1 });
    fc.assert(
      fc.property(number, number, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(binOf(low)).toBeLessThanOrEqual(binOf(high));
        if (binOf(low) === binOf(high)) expect(high - low).toBeLessThanOrEqual(low / 128);
        expect(binOf(high)).toBeLessThan(BINS);
      }),
    );
    expect([0, 1, 255, 256, 2 ** 32 - 1].map(binOf)).toEqual([0, 1, 255, 256, BINS - 1]);
  });
});
