import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binomialTails, controlPoint, funnelLimits, pChart } from '../../trees/statistics/index.ts';

const periods = fc.array(
  fc
    .integer({ min: 0, max: 300 })
    .chain((of) => fc.record({ of: fc.constant(of), count: fc.integer({ min: 0, max: of }) })),
  { maxLength: 36 },
);
const targets = fc.double({ min: 0, max: 1, noNaN: true });

describe('the p-chart', () => {
  it('keeps its limits within 0 to 1 and about the centre line', () => {
    fc.assert(
      fc.property(periods, (given) => {
        const chart = pChart(given);
        for (const { low, high } of chart?.points ?? []) {
          expect(low).toBeGreaterThanOrEqual(0);
          expect(low).toBeLessThanOrEqual(chart?.centre ?? -1);
          expect(high).toBeGreaterThanOrEqual(chart?.centre ?? 2);
          expect(high).toBeLessThanOrEqual(1);
        }
        expect(chart?.points ?? []).toHaveLength(chart ? given.length : 0);
      }),
    );
  });

  it('marks no point inside its limits, nor a small one that is not as rare as 0.00135', () => {
    fc.assert(
      fc.property(periods, targets, (given, centre) => {
        for (const { count, of } of given.filter((period) => period.of > 0)) {
          const point = controlPoint(centre, { count, of });
          if (!point.outOfControl) continue;
          expect(point.rate < point.low || point.rate > point.high).toBe(true);
          if (Math.min(of * centre, of * (1 - centre)) >= 5) continue;
          const { atMost, atLeast } = binomialTails(count, of, centre);
          expect(Math.min(atMost, atLeast)).toBeLessThanOrEqual(0.00135);
        }
      }),
    );
  });

  it('does not take a small month for news: two of two not fixed where nine in ten are', () => {
    const point = controlPoint(0.9, { count: 0, of: 2 });
    expect(point.rate).toBeLessThan(point.low);
    expect(point.outOfControl).toBe(false);
  });

  it('takes a small month for news where chance would hardly do it: four of four not fixed', () => {
    expect(controlPoint(0.9, { count: 0, of: 4 }).outOfControl).toBe(true);
  });

  it('weighs the periods by their things', () => {
    expect(
      pChart([
        { count: 1, of: 2 },
        { count: 8, of: 8 },
      ])?.centre,
    ).toBeCloseTo(0.9, 12);
  });

  it('is none of none, and has a point without a limit for an empty period', () => {
    expect(pChart([])).toBeNull();
    expect(pChart([{ count: 0, of: 0 }])).toBeNull();
    expect(controlPoint(0.8, { count: 0, of: 0 })).toEqual({ rate: 0, low: 0, high: 1, outOfControl: false });
  });
});

describe('funnel limits', () => {
  it('stand between the counts at which the tail passes their share', () => {
    const some = fc.record({ target: targets, of: fc.integer({ min: 1, max: 2000 }) });
    fc.assert(
      fc.property(some, ({ target, of }) => {
        const { within95, within998 } = funnelLimits(target, of);
        for (const [share, limit] of [
          [0.025, within95.low],
          [0.975, within95.high],
          [0.001, within998.low],
          [0.999, within998.high],
        ] as const) {
          expect(limit).toBeGreaterThanOrEqual(0);
          expect(limit).toBeLessThanOrEqual(1);
          const [under, over] = [Math.ceil(limit * of - 1e-6) - 1, Math.ceil(limit * of + 1e-6)];
          if (under >= 0) expect(binomialTails(under, of, target).atMost).toBeLessThan(share + 1e-9);
          if (over <= of) expect(binomialTails(over, of, target).atMost).toBeGreaterThan(share - 1e-9);
        }
      }),
    );
  });

  it('stand between counts as far as the tail has come, worked by hand for ten at one half, to 1e-12', () => {
    // Of 1024 cases 1 has none, 10 have one and 45 have two: 56 are above 2.5 % (25.6), 11 above 0.1 % (1.024).
    const { within95, within998 } = funnelLimits(0.5, 10);
    const [two, one] = [(2 - (56 - 25.6) / 45) / 10, (1 - (11 - 1.024) / 10) / 10];
    expect(within95.low).toBeCloseTo(two, 12);
    expect(within998.low).toBeCloseTo(one, 12);
    // From above: 97.5 % are passed at eight, with 11 cases left, and 99.9 % at nine, with 1 left.
    expect(within95.high).toBeCloseTo((8 - (25.6 - 11) / 45) / 10, 12);
    expect(within998.high).toBeCloseTo((9 - (1.024 - 1) / 10) / 10, 12);
  });

  it('come close to the normal ones where there are many, to 0.001', () => {
    const { within95, within998 } = funnelLimits(0.8, 10_000);
    expect(Math.abs(within95.low - (0.8 - 1.96 * 0.004))).toBeLessThan(0.001);
    expect(Math.abs(within998.high - (0.8 + 3.09 * 0.004))).toBeLessThan(0.001);
  });

  it('hold the narrower ones within the wider, and narrow the more there are', () => {
    const [few, many] = [funnelLimits(0.8, 20), funnelLimits(0.8, 200)];
    for (const limits of [few, many]) {
      expect(limits.within998.low).toBeLessThan(limits.within95.low);
      expect(limits.within998.high).toBeGreaterThanOrEqual(limits.within95.high);
    }
    expect(many.within95.low).toBeGreaterThan(few.within95.low);
    expect(many.within95.high).toBeLessThan(few.within95.high);
  });

  it('are 0 to 1 of none', () => {
    const all = { low: 0, high: 1 };
    expect(funnelLimits(0.8, 0)).toEqual({ within95: all, within998: all });
  });
});
