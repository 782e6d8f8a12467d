import { expect, test } from 'vitest';
import { layReliability, shortCount } from '../../../app/review/plots/lay-reliability.ts';

function bin(tenth: number, count: number, observed: number) {
  const from = tenth / 10;
  return {
    from,
    to: from + 0.1,
    jobs: count,
    count,
    confirmed: Math.round(count * observed),
    forecast: from + 0.05,
    observed,
    low: observed * 0.8,
    high: Math.min(1, observed * 1.2),
  };
}

test('a forecast that came as often as shown lies on the diagonal of a square', () => {
  const { plot, points } = layReliability([bin(2, 40, 0.25), bin(8, 40, 0.85)], { width: 800, em: 13 });
  expect(plot.right - plot.left).toBeCloseTo(plot.bottom - plot.top, 9);
  for (const { x, y, low, high } of points) {
    expect(x - plot.left).toBeCloseTo(plot.bottom - y, 9);
    expect(high).toBeLessThanOrEqual(y);
    expect(low).toBeGreaterThanOrEqual(y);
  }
});

test('tenths in which nothing was shown are left out, and the fullest has the tallest bar', () => {
  const { points } = layReliability([bin(0, 500, 0.04), bin(1, 0, 0), bin(2, 50, 0.3)], {
    width: 352,
    em: 13,
  });
  expect(points.map(({ bin: { from } }) => from)).toEqual([0, 0.2]);
  const [tallest, other] = points.map(({ bar }) => bar.bottom - bar.top);
  expect(tallest).toBeCloseTo((other ?? 0) * 10, 9);
});

test('counts stand in two lines where they have no room in one', () => {
  const linesOf = (count: number, width: number): number =>
    layReliability(
      Array.from({ length: 10 }, (_, tenth) => bin(tenth, count, tenth / 10)),
      { width, em: 13 },
    ).lines;
  expect(linesOf(5000, 352)).toBe(2);
  expect(linesOf(5000, 900)).toBe(2);
  expect(linesOf(500, 900)).toBe(1);
  expect([999, 9_949, 9_999, 12_345, 999_600, 12_345_678].map((count) => shortCount(count, 4))).toEqual([
    '999',
    '9.9k',
    '10k',
    '12k',
    '1.0M',
    '12M',
  ]);
  expect([1_001, 9_999, 12_345].map((count) => shortCount(count, 5))).toEqual(['1,001', '9,999', '12k']);
});
