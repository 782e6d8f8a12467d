import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layControlChart } from '../../../app/review/plots/lay-control-chart.ts';
import { months, rooms } from './arbitrary.ts';

const ROOM = { width: 800, em: 13 };

function monthOf(month: string, rate: number, more: object = {}) {
  return {
    month,
    closed: 50,
    fixed: Math.round(50 * rate),
    rate,
    low: 0.6,
    high: 0.95,
    outOfControl: false,
    provisional: false,
    ...more,
  };
}

test('every month lies inside the plot, in its order, at the height of its rate', () => {
  fc.assert(
    fc.property(months, rooms, (points, room) => {
      const { plot, points: laid, start } = layControlChart(points, 0.8, room);
      expect(plot.right).toBeLessThanOrEqual(room.width);
      for (const [index, { x, y, point, hit }] of laid.entries()) {
        expect(x).toBeGreaterThan(plot.left);
        expect(x).toBeLessThan(plot.right);
        expect(y).toBeGreaterThanOrEqual(plot.top - 1e-9);
        expect(y).toBeLessThanOrEqual(plot.bottom + 1e-9);
        expect((plot.bottom - y) / (plot.bottom - plot.top)).toBeCloseTo(
          (point.rate - start) / (1 - start),
          9,
        );
        const next = laid[index + 1];
        if (next !== undefined) expect(next.hit.left).toBeGreaterThanOrEqual(hit.right - 1e-9);
      }
    }),
  );
});

test('limits are level through each month and step at its edge; a month without jobs breaks them and the line', () => {
  const points = [monthOf('2026-01', 0.8), monthOf('2026-02', 0.8, { low: 0.7 }), monthOf('2026-04', 0.8)];
  const { limits, joined, points: laid } = layControlChart(points, 0.8, ROOM);
  const steps = [...limits.low.matchAll(/([MVH])([\d.]+)/g)].map(([, letter]) => letter).join('');
  expect(steps).toBe('MHVHMH');
  expect(limits.low.startsWith(`M${String(laid[0]?.hit.left)} `)).toBe(true);
  expect(joined.match(/M/g)).toHaveLength(2);
});

test('a month out of control says by its state and in words on which side; a provisional one too where it is below', () => {
  const points = [
    monthOf('2026-01', 0.4, { outOfControl: true }),
    monthOf('2026-02', 1, { outOfControl: true }),
    monthOf('2026-03', 0.3, { provisional: true, outOfControl: true }),
    monthOf('2026-04', 0.5, { provisional: true }),
    monthOf('2026-05', 0.8),
  ];
  const { points: laid, labels } = layControlChart(points, 0.8, ROOM);
  expect(laid.map(({ state }) => state)).toEqual(['below', 'above', 'below', 'provisional', 'within']);
  expect(labels.map(({ words }) => words.split(' ')[0])).toEqual(['below', 'above', 'below']);
});

test('without a centre line there are no limits and the axis is not cut', () => {
  const { centre, limits, ends, leaders, start } = layControlChart([monthOf('2026-01', 0.9)], null, ROOM);
  expect({ centre, limits, ends, leaders, start }).toEqual({
    centre: null,
    limits: { low: '', high: '' },
    ends: [],
    leaders: [],
    start: 0,
  });
});

test('the names of centre line and limits do not overlap however close the lines', () => {
  fc.assert(
    fc.property(months, rooms, (points, room) => {
      const heights = layControlChart(points, 0.8, room).ends.map(({ y }) => y);
      for (const [index, y] of heights.entries())
        if (index > 0)
          expect(y - (heights[index - 1] ?? 0)).toBeGreaterThanOrEqual(Math.round(room.em * 1.5) - 1e-9);
    }),
  );
});

test('where the lines are close, each name has a leader from the end of its own line', () => {
  const near = monthOf('2026-02', 0.82, { low: 0.76, high: 0.85 });
  const { leaders, ends, centre, plot, start } = layControlChart([monthOf('2026-01', 0.3), near], 0.82, ROOM);
  const heights = [0.85, 0.82, 0.76].map(
    (share) => plot.bottom - ((share - start) / (1 - start)) * (plot.bottom - plot.top),
  );
  expect(ends.map(({ words }) => words)).toEqual(['limit', 'centre', '82\u202f%', 'limit']);
  expect(leaders).toHaveLength(3);
  for (const [index, { fromY }] of leaders.entries()) expect(fromY).toBeCloseTo(heights[index] ?? NaN, 9);
  expect(leaders[1]?.fromY).toBe(centre?.y);
});
