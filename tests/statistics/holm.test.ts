import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holm } from '../../trees/statistics/index.ts';

const chances = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 40 });

describe('Holm’s correction', () => {
  it('never makes a chance smaller, nor larger than 1 or than times the number of tests', () => {
    fc.assert(
      fc.property(chances, (given) => {
        holm(given).forEach((corrected, index) => {
          const chance = given[index] ?? -1;
          expect(corrected).toBeGreaterThanOrEqual(chance);
          expect(corrected).toBeLessThanOrEqual(Math.min(1, chance * given.length));
        });
      }),
    );
  });

  it('never lets a larger chance fall below a smaller one', () => {
    fc.assert(
      fc.property(chances, (given) => {
        const corrected = holm(given);
        const order = given.map((_, index) => index).sort((a, b) => (given[a] ?? 0) - (given[b] ?? 0));
        const inOrder = order.map((index) => corrected[index] ?? -1);
        expect(inOrder).toEqual([...inOrder].sort((a, b) => a - b));
      }),
    );
  });

  it('refuses just what stepping down refuses: the smallest at 5 % over all, the next at 5 % over those left, until one stands', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 0.1, noNaN: true }), { maxLength: 20 }), (given) => {
        const ascending = [...given].sort((a, b) => a - b);
        const stands = ascending.findIndex((chance, rank) => chance * (given.length - rank) >= 0.05);
        const refused = stands === -1 ? given.length : stands;
        expect(holm(given).filter((corrected) => corrected < 0.05)).toHaveLength(refused);
      }),
    );
  });

  it('leaves a single chance alone, and has nothing to say of none', () => {
    expect(holm([0.03])).toEqual([0.03]);
    expect(holm([])).toEqual([]);
  });
});
