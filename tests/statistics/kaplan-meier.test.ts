import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kaplanMeier } from '../../trees/statistics/index.ts';

const days = fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 60 });
const counts = days.map((counted) => Uint32Array.from(counted));

describe('the product-limit curve', () => {
  it('is the plain share, with the binomial error, where none are lost from sight, to 1e-12', () => {
    fc.assert(
      fc.property(counts, (events) => {
        const all = events.reduce((sum, count) => sum + count, 0);
        for (const point of kaplanMeier(events, [])) {
          const left = all - events.subarray(0, point.days + 1).reduce((sum, count) => sum + count, 0);
          const share = left / all;
          expect(Math.abs(point.survival - share)).toBeLessThan(1e-12);
          expect(Math.abs(point.error - Math.sqrt((share * (1 - share)) / all))).toBeLessThan(1e-12);
        }
      }),
    );
  });

  it('never rises, stays within its interval, and the interval within 0 to 1', () => {
    fc.assert(
      fc.property(counts, counts, (events, censored) => {
        let before = 1;
        for (const point of kaplanMeier(events, censored, [0, 10, 20, 49])) {
          expect(point.survival).toBeLessThanOrEqual(before);
          expect(point.low).toBeGreaterThanOrEqual(0);
          expect(point.low).toBeLessThanOrEqual(point.survival);
          expect(point.high).toBeGreaterThanOrEqual(point.survival);
          expect(point.high).toBeLessThanOrEqual(1);
          before = point.survival;
        }
      }),
    );
  });

  it('is the same whether or not more days are asked for', () => {
    fc.assert(
      fc.property(counts, counts, (events, censored) => {
        const plain = kaplanMeier(events, censored, []);
        const more = kaplanMeier(events, censored, [0, 7, 30]);
        expect(more.filter((point) => point.events > 0)).toEqual(plain);
      }),
    );
  });

  it('counts those lost on a day as at risk on it, and as gone on the next', () => {
    const [first, second] = kaplanMeier([0, 1, 1], [0, 2, 0], []);
    expect([first?.atRisk, first?.survival]).toEqual([4, 0.75]);
    expect([second?.atRisk, second?.survival]).toEqual([1, 0]);
  });

  it('has the exact lower limit of none in so many before the first event', () => {
    const [start] = kaplanMeier([0, 0, 1], [3, 0, 6]);
    expect(start).toMatchObject({ days: 0, atRisk: 10, events: 0, survival: 1, error: 0, high: 1 });
    expect(start?.low).toBeCloseTo(0.025 ** (1 / 10), 12);
  });

  it('gives the exact upper limit where the event came to all at once', () => {
    const [only] = kaplanMeier([10], []);
    expect(only).toMatchObject({ survival: 0, error: 0, low: 0 });
    expect(only?.high).toBeCloseTo(1 - 0.025 ** (1 / 10), 12);
  });

  it('does not let the upper limit rise again when the event comes to the last who were left', () => {
    const [most, last] = kaplanMeier([0, 4, 1], [], []);
    expect([last?.atRisk, last?.survival]).toEqual([1, 0]);
    expect(most?.high).toBeLessThan(1 - 0.025);
    expect(last?.high).toBe(most?.high);
  });

  it('has no point where nobody is at risk', () => {
    expect(kaplanMeier([], [])).toEqual([]);
    expect(kaplanMeier([0, 0, 0], [0, 0, 0])).toEqual([]);
    expect(kaplanMeier([0, 1], [1, 1], [0, 1, 2, 90]).map((point) => point.days)).toEqual([0, 1]);
  });

  it('has an interval that is symmetric on the scale of log(-log), to 1e-9', () => {
    const scale = (survival: number): number => Math.log(-Math.log(survival));
    for (const point of kaplanMeier([0, 3, 2, 0, 1], [1, 0, 4, 2, 8], [])) {
      const [low, middle, high] = [point.low, point.survival, point.high].map(scale);
      expect((low ?? 0) + (high ?? 0)).toBeCloseTo(2 * (middle ?? NaN), 9);
      const reach = (1.959963984540054 * point.error) / (point.survival * -Math.log(point.survival));
      expect((low ?? 0) - (middle ?? NaN)).toBeCloseTo(reach, 9);
    }
  });
});
