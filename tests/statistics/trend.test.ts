import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trend, type TimedPeriod } from '../../trees/statistics/index.ts';

const periods = fc
  .array(
    fc
      .integer({ min: 0, max: 200 })
      .chain((of) => fc.record({ of: fc.constant(of), count: fc.integer({ min: 0, max: of }) })),
    { maxLength: 24 },
  )
  .map((all) => all.map((period, at) => ({ ...period, at })));

describe('the trend', () => {
  it('is the slope of the line that lies nearest, and turns with what is counted and with time, to 1e-9', () => {
    fc.assert(
      fc.property(periods, (given) => {
        const line = trend(given);
        const others = trend(given.map(({ count, of, at }) => ({ count: of - count, of, at })));
        const back = trend(given.map((period) => ({ ...period, at: 5 - 2 * period.at })));
        expect(others === null).toBe(line === null);
        if (line === null) return;
        expect(others?.slope).toBeCloseTo(-line.slope, 9);
        expect(back?.slope).toBeCloseTo(-line.slope / 2, 9);
        expect(back?.chance).toBeCloseTo(line.chance, 9);
        expect(line.chance).toBeGreaterThanOrEqual(0);
        expect(line.chance).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('finds a slow fall that lies within every month’s limits', () => {
    // From 84 to 76 of 100: a month of 100 at 80 % may be from 68 to 92 by chance.
    const slow = Array.from({ length: 17 }, (_, at) => ({ at, of: 100, count: 84 - at / 2 }));
    const line = trend(slow.map((one) => ({ ...one, count: Math.round(one.count) })));
    expect(line?.slope).toBeCloseTo(-0.005, 3);
    expect(line?.chance).toBeLessThan(0.02);
  });

  it('is within 0.02 of the chance by all ways to deal out the events, in three periods of some dozen', () => {
    const given: readonly TimedPeriod[] = [
      { at: 0, of: 12, count: 4 },
      { at: 1, of: 14, count: 7 },
      { at: 2, of: 12, count: 8 },
    ];
    expect(Math.abs((trend(given)?.chance ?? 0) - midChance(given))).toBeLessThan(0.02);
  });

  it('is none of one moment, of none, and where all or none were counted', () => {
    expect(trend([])).toBeNull();
    expect(trend([{ at: 3, of: 10, count: 4 }])).toBeNull();
    for (const part of [0, 1])
      expect(trend([0, 1, 2].map((at) => ({ at, of: 5, count: 5 * part })))).toBeNull();
  });
});

/** Exact: the events dealt out at random among all things, as far or farther out; half of what is just as far (mid-p). */
function midChance(given: readonly TimedPeriod[]): number {
  const [a, b, c] = given;
  if (a === undefined || b === undefined || c === undefined) throw new Error('three periods');
  const events = a.count + b.count + c.count;
  const all = a.of + b.of + c.of;
  const middle = (events * (b.of + 2 * c.of)) / all;
  const far = Math.abs(b.count + 2 * c.count - middle);
  let [beyond, equal] = [0, 0];
  for (let one = 0; one <= b.of; one++) {
    for (let two = 0; two <= c.of; two++) {
      const ways = choose(a.of, events - one - two) * choose(b.of, one) * choose(c.of, two);
      const out = Math.abs(one + 2 * two - middle);
      if (Math.abs(out - far) < 1e-9) equal += ways;
      else if (out > far) beyond += ways;
    }
  }
  return (beyond + equal / 2) / choose(all, events);
}

function choose(n: number, k: number): number {
  if (k < 0 || k > n) return 0;
  return Array.from({ length: k }, (_, at) => (n - at) / (at + 1)).reduce(
    (product, factor) => product * factor,
    1,
  );
}
