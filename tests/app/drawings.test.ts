import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeOnBands } from '../../app/bench/job/band-scale.ts';
import { leadersOf } from '../../app/parts/leaders.ts';

const LIMITS = [
  { result: 'dead', from: -Infinity, to: 0.4 },
  { result: 'low', from: 0.4, to: 3.135 },
  { result: 'good', from: 3.135, to: 3.465 },
  { result: 'high', from: 3.465, to: Infinity },
];

describe('a reading on its bands', () => {
  it('lies in its own band, from low to high', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        const at = placeOnBands(LIMITS, value) ?? -1;
        const band = LIMITS.findIndex(({ from, to }) => from <= value && value < to);
        expect(at).toBeGreaterThanOrEqual(band / 4);
        expect(at).toBeLessThanOrEqual((band + 1) / 4);
      }),
    );
  });

  it('lies in proportion within a band that has two limits', () => {
    expect(placeOnBands(LIMITS, 3.3)).toBeCloseTo(0.625, 9);
  });

  it('lies by decades within a band whose limits are a decade or more apart', () => {
    const wide = [
      { result: 'short', from: -Infinity, to: 1e3 },
      { result: 'clear', from: 1e3, to: 1e6 },
    ];
    expect(placeOnBands(wide, 1e4)).toBeCloseTo((1 + 1 / 3) / 2, 9);
  });

  it('keeps the order of readings', () => {
    const reading = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(reading, reading, (a, b) => {
        const [low = 0, high = 0] = [a, b].sort((x, y) => x - y);
        expect(placeOnBands(LIMITS, low) ?? 0).toBeLessThanOrEqual(placeOnBands(LIMITS, high) ?? 0);
      }),
    );
  });

  it('puts OL in the topmost band, and nothing where there are no bands', () => {
    expect(placeOnBands(LIMITS, 'OL')).toBeGreaterThan(0.75);
    expect(placeOnBands([], 1)).toBeNull();
  });
});

describe('leaders to probe points', () => {
  it('number the points in their order and end away from them', () => {
    const leaders = leadersOf(
      [
        { x: 0.4, y: 0.8, label: 'BT-' },
        { x: 0.6, y: 0.8, label: 'BT+' },
      ],
      0.7,
    );
    expect(leaders.map(({ number, label }) => `${String(number)} ${label}`)).toEqual(['1 BT-', '2 BT+']);
    for (const { x, y, endX, endY } of leaders) expect(Math.hypot(endX - x, endY - y)).toBeGreaterThan(3);
  });

  it('keep the labels of near points apart', () => {
    const leaders = leadersOf(
      [0.3, 0.32, 0.34].map((y, index) => ({ x: 0.5, y, label: `TP${String(index)}` })),
      0.7,
    );
    for (const [at, one] of leaders.entries()) {
      for (const other of leaders.slice(at + 1)) {
        const sameSide = one.anchor === other.anchor;
        const apart = Math.abs(one.endY - other.endY) >= 5 || Math.abs(one.endX - other.endX) >= 6;
        expect(!sameSide || apart).toBe(true);
      }
    }
  });

  it('keep labels on the drawing while there is room', () => {
    const coordinate = fc.double({ min: 0.2, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(coordinate, coordinate, (x, y) => {
        const [leader] = leadersOf([{ x, y, label: 'TP1' }], 0.7);
        expect(leader?.endX).toBeGreaterThanOrEqual(0);
        expect(leader?.endX).toBeLessThanOrEqual(100);
        expect(leader?.endY).toBeGreaterThanOrEqual(0);
        expect(leader?.endY).toBeLessThanOrEqual(70);
      }),
    );
  });
});
