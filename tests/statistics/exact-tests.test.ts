import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import hypergeometric from '@stdlib/stats-base-dists-hypergeometric-pmf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  binomialTails,
  binomialTest,
  chiSquare,
  compareShares,
  fisherExact,
  type TwoByTwo,
} from '../../trees/statistics/index.ts';

const tableOf = (a: number, b: number, c: number, d: number): TwoByTwo => [
  [a, b],
  [c, d],
];
const few = fc.integer({ min: 0, max: 30 });
const tables = fc.tuple(few, few, few, few).map((counts) => tableOf(...counts));
const many = fc.integer({ min: 0, max: 100_000 });

/** P(X = count), every factor by itself, in the order that keeps the product near one. */
function pmf(count: number, of: number, chance: number): number {
  let product = 1;
  for (let k = 1; k <= count; k++) product *= ((of - count + k) / k) * chance;
  for (let k = 0; k < of - count; k++) product *= 1 - chance;
  return product;
}

const upTo = (last: number): number[] => Array.from({ length: last + 1 }, (_, index) => index);
const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

describe('the exact binomial test', () => {
  it('adds up every count that is no likelier, to 1e-10', () => {
    const trials = fc.record({
      of: fc.integer({ min: 0, max: 60 }),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      chance: fc.constantFrom(0, 0.01, 0.05, 0.1, 0.25, 0.3, 0.5, 0.75, 0.9, 0.999, 1),
    });
    fc.assert(
      fc.property(trials, ({ of, at, chance }) => {
        const count = Math.round(of * at);
        const limit = pmf(count, of, chance) * (1 + 1e-7);
        const plain = upTo(of).map((k) => pmf(k, of, chance));
        const expected = sumOf(plain.filter((each) => each <= limit));
        expect(Math.abs(binomialTest(count, of, chance) - expected)).toBeLessThan(1e-10);
      }),
    );
  });

  it('is twice the tail at one half, for up to a million trials, to a billionth of it', () => {
    const trials = fc
      .integer({ min: 1, max: 1_000_000 })
      .chain((of) => fc.tuple(fc.constant(of), fc.double({ min: 0.5, max: 6, noNaN: true })));
    fc.assert(
      fc.property(trials, ([of, deviations]) => {
        const count = Math.max(0, Math.floor(of / 2 - (deviations * Math.sqrt(of)) / 2 - 1));
        const tail = binomialTails(count, of, 0.5).atMost;
        expect(binomialTest(count, of, 0.5) / (2 * tail)).toBeCloseTo(1, 8);
      }),
      { numRuns: 30 },
    );
  });

  it('is 1 where the count is the likeliest one, and of none', () => {
    expect(binomialTest(3, 10, 0.3)).toBeCloseTo(1, 12);
    expect(binomialTest(0, 0, 0.3)).toBe(1);
  });

  it('knows what cannot be and what must be', () => {
    expect(binomialTest(1, 5, 0)).toBe(0);
    expect(binomialTest(0, 5, 0)).toBe(1);
    expect(binomialTest(4, 5, 1)).toBe(0);
    expect(binomialTest(5, 5, 1)).toBe(1);
  });
});

describe('binomial tails', () => {
  it('overlap in the count itself, to 1e-10', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), fc.double({ min: 0, max: 1, noNaN: true }), (of, at) => {
        const count = Math.round(of * at);
        const { atMost, atLeast } = binomialTails(count, of, 0.3);
        expect(Math.abs(atMost + atLeast - 1 - pmf(count, of, 0.3))).toBeLessThan(1e-10);
      }),
    );
  });

  it('keep their digits where they are small: all of 50 at one tenth are 1e-50, to a billionth of it', () => {
    expect(binomialTails(50, 50, 0.1).atLeast / 1e-50).toBeCloseTo(1, 9);
    expect(binomialTails(0, 50, 0.9).atMost / 1e-50).toBeCloseTo(1, 9);
  });
});

describe('Fisher’s exact test', () => {
  it('adds up every table with the same margins that is no likelier, to 1e-10', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const [[a, b], [c, d]] = table;
        const all = a + b + c + d;
        const chanceOf = (k: number): number => hypergeometric(k, all, a + b, a + c);
        const limit = chanceOf(a) * (1 + 1e-7);
        const expected = sumOf(
          upTo(Math.min(a + b, a + c))
            .map(chanceOf)
            .filter((each) => each <= limit),
        );
        expect(Math.abs(fisherExact(table) - Math.min(1, expected))).toBeLessThan(1e-10);
      }),
    );
  });

  it('does not mind which way the table lies, to 1e-9, up to a hundred thousand in a cell', () => {
    fc.assert(
      fc.property(many, many, many, many, (a, b, c, d) => {
        const chance = fisherExact(tableOf(a, b, c, d));
        for (const turned of [tableOf(c, d, a, b), tableOf(b, a, d, c), tableOf(a, c, b, d)]) {
          expect(Math.abs(fisherExact(turned) - chance)).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('is 1 where a margin is empty', () => {
    expect(fisherExact(tableOf(0, 0, 0, 0))).toBe(1);
    expect(fisherExact(tableOf(4, 7, 0, 0))).toBe(1);
    expect(fisherExact(tableOf(0, 7, 0, 2))).toBe(1);
  });
});

describe('chi-square', () => {
  it('is the sum of squared differences from what is expected, with the chance of its distribution, to 1e-9', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const { statistic, chance } = chiSquare(table);
        const [first, second] = table;
        const rows = table.map(sumOf);
        const columns = [first[0] + second[0], first[1] + second[1]];
        const all = sumOf(rows);
        if (rows.includes(0) || columns.includes(0)) {
          expect([statistic, chance]).toEqual([0, 1]);
          return;
        }
        const terms = table.flatMap((row, r) =>
          row.map((count, c) => {
            const expected = ((rows[r] ?? 0) * (columns[c] ?? 0)) / all;
            return (count - expected) ** 2 / expected;
          }),
        );
        expect(Math.abs(statistic - sumOf(terms))).toBeLessThan(1e-9);
        expect(Math.abs(chance - (1 - chiSquareCdf(statistic, 1)))).toBeLessThan(1e-9);
      }),
    );
  });

  it('comes close to the exact chance where there are many, to 0.005', () => {
    const table = tableOf(5200, 4800, 5050, 4950);
    expect(Math.abs(chiSquare(table).chance - fisherExact(table))).toBeLessThan(0.005);
  });
});

describe('the comparison of two shares', () => {
  it('takes the exact test where a count below five is expected in some cell', () => {
    const table = tableOf(3, 17, 6, 14);
    expect(compareShares(table)).toEqual({ method: 'exact', chance: fisherExact(table) });
  });

  it('takes chi-square where five or more are expected in every cell, whatever was counted', () => {
    const table = tableOf(1, 19, 9, 11);
    expect(compareShares(table)).toEqual({ method: 'chi-square', chance: chiSquare(table).chance });
  });

  it('finds no difference where there is nothing to compare', () => {
    expect(compareShares(tableOf(0, 0, 0, 0)).chance).toBe(1);
  });
});
