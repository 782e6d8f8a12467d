import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaInterval, binomialTails, exactInterval, rateOf } from '../../trees/statistics/index.ts';

const counted = fc
  .integer({ min: 1, max: 100_000 })
  .chain((of) => fc.record({ of: fc.constant(of), count: fc.integer({ min: 0, max: of }) }));
const confidences = fc.constantFrom(0.5, 0.9, 0.95, 0.99, 0.998);

describe('Wilson’s interval', () => {
  it('lies within 0 to 1 and holds the share', () => {
    fc.assert(
      fc.property(counted, confidences, ({ count, of }, confidence) => {
        const { share, low, high } = rateOf(count, of, confidence);
        expect(share).toBe(count / of);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(share);
        expect(high).toBeGreaterThanOrEqual(share);
        expect(high).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('ends where the score test is on the edge of refusing, to 1e-9', () => {
    fc.assert(
      fc.property(counted, ({ count, of }) => {
        const { share, low, high } = rateOf(count, of);
        const z = 1.959963984540054;
        for (const end of [low, high].filter((limit) => limit > 0 && limit < 1)) {
          const distance = Math.abs(share - end) - z * Math.sqrt((end * (1 - end)) / of);
          expect(Math.abs(distance)).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it('is mirrored for those that do not count, to 1e-12', () => {
    fc.assert(
      fc.property(counted, ({ count, of }) => {
        const [these, others] = [rateOf(count, of), rateOf(of - count, of)];
        expect(Math.abs(these.low + others.high - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('is wider the more confident it must be', () => {
    const [ninety, ninetyNine] = [rateOf(7, 20, 0.9), rateOf(7, 20, 0.99)];
    expect(ninetyNine.low).toBeLessThan(ninety.low);
    expect(ninetyNine.high).toBeGreaterThan(ninety.high);
  });

  it('is all of 0 to 1 of none', () => {
    expect(rateOf(0, 0)).toEqual({ count: 0, of: 0, share: 0, low: 0, high: 1 });
  });
});

describe('the exact interval', () => {
  it('ends where the binomial tail is half of what is left over, to a millionth of it', () => {
    fc.assert(
      fc.property(counted, confidences, ({ count, of }, confidence) => {
        const { low, high } = exactInterval(count, of, confidence);
        const half = (1 - confidence) / 2;
        expect(low === 0).toBe(count === 0);
        expect(high === 1).toBe(count === of);
        if (count > 0) expect(binomialTails(count, of, low).atLeast / half).toBeCloseTo(1, 6);
        if (count < of) expect(binomialTails(count, of, high).atMost / half).toBeCloseTo(1, 6);
      }),
    );
  });

  it('holds the share, however few there are', () => {
    fc.assert(
      fc.property(counted, ({ count, of }) => {
        const { low, high } = exactInterval(count, of);
        expect(low).toBeLessThanOrEqual(count / of);
        expect(high).toBeGreaterThanOrEqual(count / of);
      }),
    );
  });

  it('is all of 0 to 1 of none', () => {
    expect(exactInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });
});

describe('the beta interval', () => {
  it('is what a uniform prior leaves of none', () => {
    const { mean, deviation, low, high } = betaInterval(1, 1, 0.9);
    expect(mean).toBe(0.5);
    expect(deviation).toBeCloseTo(Math.sqrt(1 / 12), 12);
    expect(low).toBeCloseTo(0.05, 9);
    expect(high).toBeCloseTo(0.95, 9);
  });

  it('lies within 0 to 1, with its mean inside, for whole and broken pseudo-counts', () => {
    const pseudo = fc.double({ min: 0.5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(pseudo, pseudo, (yes, no) => {
        const { mean, low, high } = betaInterval(yes, no);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThan(mean);
        expect(high).toBeGreaterThan(mean);
        expect(high).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('lies within the exact interval after a uniform prior', () => {
    fc.assert(
      fc.property(counted, ({ count, of }) => {
        const [beta, exact] = [betaInterval(1 + count, 1 + of - count), exactInterval(count, of)];
        expect(beta.low).toBeGreaterThanOrEqual(exact.low - 1e-12);
        expect(beta.high).toBeLessThanOrEqual(exact.high + 1e-12);
      }),
    );
  });
});
