import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layComebackCurve } from '../../../app/review/plots/lay-comeback-curve.ts';
import { textWidth } from '../../../app/review/plots/text-width.ts';
import { curves, rooms } from './arbitrary.ts';

function layOut(points: ReturnType<typeof pointsOf>, room = { width: 800, em: 13 }) {
  return layComebackCurve(points, 90, points.find(({ days }) => days === 90) ?? null, room);
}

function pointsOf(survivals: readonly (readonly [days: number, survival: number])[]) {
  return survivals.map(([days, survival], index) => ({
    days,
    atRisk: 100 - index,
    back: days === 0 || days === 90 ? 0 : 1,
    survival,
    error: 0,
    low: Math.max(0, survival - 0.05),
    high: Math.min(1, survival + 0.02),
  }));
}

test('every day that can be pointed at lies inside the plot and has its own part of it', () => {
  fc.assert(
    fc.property(curves, rooms, (points, room) => {
      const { plot, points: laid } = layOut(points, room);
      for (const [index, { x, y, hit }] of laid.entries()) {
        expect(x).toBeGreaterThanOrEqual(plot.left);
        expect(x).toBeLessThanOrEqual(plot.right + 1e-9);
        expect(y).toBeGreaterThanOrEqual(plot.top - 1e-9);
        expect(y).toBeLessThanOrEqual(plot.bottom + 1e-9);
        expect(hit.left).toBeLessThanOrEqual(x + 1e-9);
        const next = laid[index + 1];
        if (next !== undefined) expect(next.hit.left).toBeCloseTo(hit.right, 9);
      }
    }),
  );
});

test('the curve goes level to the day of a comeback and then straight down', () => {
  const { curve, points, plot } = layOut(
    pointsOf([
      [0, 1],
      [30, 0.9],
      [90, 0.9],
    ]),
  );
  const places = [...curve.matchAll(/[ML]([\d.]+),([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
  expect(places[1]).toEqual([expect.closeTo(points[0]?.x ?? 0, 2), plot.top]);
  expect(places[2]?.[0]).toBe(places[1]?.[0]);
  expect(places[2]?.[1]).toBeCloseTo(points[0]?.y ?? 0, 2);
});

test('units back so far are summed up to each day', () => {
  const { points } = layOut(
    pointsOf([
      [0, 1],
      [3, 0.99],
      [7, 0.98],
      [90, 0.98],
    ]),
  );
  expect(points.map(({ point, backSoFar }) => [point.days, backSoFar])).toEqual([
    [3, 1],
    [7, 2],
    [90, 2],
  ]);
});

test('numbers at risk stand under days that they are of, and do not run into each other', () => {
  fc.assert(
    fc.property(curves, rooms, (points, room) => {
      const { atRisk } = layOut(points, room);
      expect(atRisk[0]?.words).toBe(String(points[0]?.atRisk));
      const placed = atRisk.toSorted((a, b) => a.at - b.at);
      for (const [index, { at, words }] of placed.entries()) {
        const next = placed[index + 1];
        if (next === undefined) continue;
        expect(next.at - at).toBeGreaterThan(
          (textWidth(words ?? '', room.em) + textWidth(next.words ?? '', room.em)) / 2,
        );
      }
    }),
  );
});

test('where no unit has been followed for the window, its line stands without a value', () => {
  const { window, plot } = layComebackCurve(
    pointsOf([
      [0, 1],
      [5, 0.9],
    ]),
    90,
    null,
    { width: 500, em: 13 },
  );
  expect(window).toEqual({ x: plot.right, y: null, label: null });
});

test('the window’s value is written inside the plot wherever the curve runs', () => {
  for (const survival of [1, 0.95, 0.6, 0.3, 0.05]) {
    const { window, plot } = layOut(
      pointsOf([
        [0, 1],
        [40, survival],
        [90, survival],
      ]),
    );
    expect(window.label?.top).toBeGreaterThanOrEqual(plot.top);
    expect(window.label?.lines).toHaveLength(2);
  }
});
