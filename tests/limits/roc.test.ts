import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rocOf } from '../../trees/limits/index.ts';
import { drawnReadings, isPositive, type Drawn } from './drawn-readings.ts';

/** The chance that a positive reads higher, pair by pair. */
function areaByPairs(readings: readonly Drawn[]): number {
  const [above, below] = [readings.filter(isPositive), readings.filter((each) => !isPositive(each))];
  let sum = 0;
  for (const { at } of above) for (const other of below) sum += beats(at, other.at);
  return sum / (above.length * below.length);
}

/** The standard error's Q1 and Q2 by going through all triples. */
function errorByTriples(readings: readonly Drawn[]): number {
  const above = readings.filter(isPositive).map(({ at }) => at);
  const below = readings.filter((each) => !isPositive(each)).map(({ at }) => at);
  const area = areaByPairs(readings);
  const q1 = mean(below, (low) => mean(above, (a) => mean(above, (b) => bothBeat(a, b, low))));
  const q2 = mean(above, (high) => mean(below, (a) => mean(below, (b) => bothBeat(-a, -b, -high))));
  const [n1, n2] = [above.length, below.length];
  const sum = area * (1 - area) + (n1 - 1) * (q1 - area ** 2) + (n2 - 1) * (q2 - area ** 2);
  return Math.sqrt(Math.max(0, sum) / (n1 * n2));
}

const beats = (a: number, b: number): number => (a > b ? 1 : a === b ? 0.5 : 0);

function bothBeat(a: number, b: number, low: number): number {
  if (a === low && b === low) return 1 / 3;
  return beats(a, low) * beats(b, low);
}

function mean(values: readonly number[], of: (value: number) => number): number {
  return values.reduce((sum, value) => sum + of(value), 0) / values.length;
}

describe('the curve of readings', () => {
  it('has the area that counting pairs gives (within 1e-12)', () => {
    fc.assert(
      fc.property(drawnReadings(), (readings) => {
        const roc = rocOf(readings, isPositive);
        if (roc === null) return;
        expect(Math.abs(roc.area - areaByPairs(readings))).toBeLessThan(1e-12);
      }),
    );
  });

  it('has the area that lies under its points, straight from one to the next (within 1e-12)', () => {
    fc.assert(
      fc.property(drawnReadings(), (readings) => {
        const roc = rocOf(readings, isPositive);
        if (roc === null) return;
        const under = roc.points.slice(1).reduce((sum, point, index) => {
          const before = roc.points[index] ?? point;
          const width = before.falsePositives - point.falsePositives;
          return sum + (width * (before.sensitivity + point.sensitivity)) / 2;
        }, 0);
        expect(Math.abs(roc.area - under)).toBeLessThan(1e-12);
        expect(roc.points[0]).toMatchObject({ sensitivity: 1, falsePositives: 1 });
        expect(roc.points.at(-1)).toEqual({ from: null, sensitivity: 0, falsePositives: 0 });
      }),
    );
  });

  it('has the standard error that counting triples gives (within 1e-9)', () => {
    fc.assert(
      fc.property(drawnReadings(14), (readings) => {
        const roc = rocOf(readings, isPositive);
        if (roc === null) return;
        expect(Math.abs(roc.standardError - errorByTriples(readings))).toBeLessThan(1e-9);
      }),
    );
  });

  it('has the same area when the line is stretched, and the rest of it when turned round (within 1e-12)', () => {
    fc.assert(
      fc.property(drawnReadings(), (readings) => {
        const area = rocOf(readings, isPositive)?.area;
        if (area === undefined) return;
        const mapped = (change: (at: number) => number) =>
          rocOf(
            readings.map((reading) => ({ ...reading, at: change(reading.at) })),
            isPositive,
          )?.area ?? NaN;
        expect(mapped((at) => Math.exp(at / 10))).toBe(area);
        expect(mapped((at) => 3 * at + 7)).toBe(area);
        expect(Math.abs(mapped((at) => -at) - (1 - area))).toBeLessThan(1e-12);
      }),
    );
  });

  it('does not depend on the order of the readings, and takes OL as beyond every value', () => {
    const readings = [
      { at: 5, positive: false },
      { at: Infinity, positive: true },
      { at: 1, positive: false },
      { at: 3, positive: true },
    ];
    const roc = rocOf(readings, isPositive);
    expect(roc).toEqual(rocOf(readings.toReversed(), isPositive));
    expect(roc?.area).toBe(0.75);
    expect(roc?.points.map(({ from }) => from)).toEqual([1, 3, 5, Infinity, null]);
  });

  it('is not there where one kind has no reading', () => {
    expect(rocOf([{ at: 1, positive: true }], isPositive)).toBeNull();
    expect(rocOf([], isPositive)).toBeNull();
  });
});
