import hypergeometric from '@stdlib/stats-base-dists-hypergeometric-pmf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fisherExact, stratifiedTest, type TwoByTwo } from '../../trees/statistics/index.ts';

const tablesUpTo = (most: number) =>
  fc
    .tuple(...Array.from({ length: 4 }, () => fc.nat({ max: most })))
    .map(([a = 0, b = 0, c = 0, d = 0]): TwoByTwo => [
      [a, b],
      [c, d],
    ]);

/** Every way that the first cells can come out, one after another. */
function everyChance(tables: readonly TwoByTwo[]): ReadonlyMap<number, number> {
  return tables.reduce(
    (sums, [[a, b], [c, d]]) => {
      const next = new Map<number, number>();
      for (const [sum, chance] of sums) {
        for (let k = Math.max(0, a - d); k <= Math.min(a + b, a + c); k += 1) {
          const more = chance * hypergeometric(k, a + b + c + d, a + b, a + c);
          next.set(sum + k, (next.get(sum + k) ?? 0) + more);
        }
      }
      return next;
    },
    new Map([[0, 1]]),
  );
}

describe('like held against like', () => {
  it('adds up every count that is no likelier, over the ways that the tables can come out', () => {
    fc.assert(
      fc.property(fc.array(tablesUpTo(8), { maxLength: 5 }), (tables) => {
        const chances = everyChance(tables);
        const { count, chance } = stratifiedTest(tables);
        const limit = (chances.get(count) ?? 0) * (1 + 1e-7);
        const expected = [...chances.values()]
          .filter((one) => one <= limit)
          .reduce((sum, one) => sum + one, 0);
        expect(Math.abs(chance - expected)).toBeLessThan(1e-10);
      }),
    );
  });

  it('expects the mean of those ways, and their variance', () => {
    fc.assert(
      fc.property(fc.array(tablesUpTo(8), { maxLength: 5 }), (tables) => {
        const ways = [...everyChance(tables)];
        const mean = ways.reduce((sum, [count, chance]) => sum + count * chance, 0);
        const square = ways.reduce((sum, [count, chance]) => sum + (count - mean) ** 2 * chance, 0);
        const { expected, variance } = stratifiedTest(tables);
        expect(Math.abs(expected - mean)).toBeLessThan(1e-9);
        expect(Math.abs(variance - square)).toBeLessThan(1e-9);
      }),
    );
  });

  it('is Fisher’s exact test where there is one table of few', () => {
    fc.assert(
      fc.property(tablesUpTo(40), (table) => {
        expect(stratifiedTest([table]).chance).toBeCloseTo(fisherExact(table), 10);
      }),
    );
  });

  it('is within the chance of the count itself of the exact chance where it takes the normal distribution’s', () => {
    const tables = fc.array(tablesUpTo(120), { minLength: 1, maxLength: 6 });
    let large = 0;
    fc.assert(
      fc.property(tables, (some) => {
        const { count, variance, chance } = stratifiedTest(some);
        if (variance < 25) return;
        large += 1;
        const chances = everyChance(some);
        const ofCount = chances.get(count) ?? 0;
        const unlikely = [...chances.values()].filter((one) => one <= ofCount * (1 + 1e-7));
        const exact = unlikely.reduce((sum, one) => sum + one, 0);
        expect(Math.abs(chance - exact)).toBeLessThan(ofCount + 0.002);
      }),
      { numRuns: 40 },
    );
    expect(large).toBeGreaterThan(10);
  });

  it('says nothing of things that are all of one kind, and nothing of nothing', () => {
    expect(stratifiedTest([])).toEqual({ count: 0, expected: 0, variance: 0, chance: 1 });
    const alone: TwoByTwo = [
      [7, 3],
      [0, 0],
    ];
    expect(stratifiedTest([alone])).toEqual({ count: 7, expected: 7, variance: 0, chance: 1 });
  });

  it('is not told apart by which of two rows comes first', () => {
    fc.assert(
      fc.property(fc.array(tablesUpTo(60), { maxLength: 4 }), (tables) => {
        const turned = tables.map(([one, other]): TwoByTwo => [other, one]);
        expect(stratifiedTest(turned).chance).toBeCloseTo(stratifiedTest(tables).chance, 9);
      }),
    );
  });
});
