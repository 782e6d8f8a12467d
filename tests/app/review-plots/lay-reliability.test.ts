import { expect, test } from 'vitest';
import { countWords, layReliability } from '../../../app/review/plots/lay-reliability.ts';

function bin(tenth: number, count: number, observed: number) {
  const from = tenth / 10;
  return {
    from,
    to: from + 0.1,
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
  const bins = Array.from({ length: 10 }, (_, tenth) => bin(tenth, 5000, tenth / 10));
  expect(layReliability(bins, { width: 352, em: 13 }).lines).toBe(2);
  expect(layReliability(bins, { width: 900, em: 13 }).lines).toBe(1);
  expect([9_999, 12_345, 999_600, 12_345_678].map(countWords)).toEqual(['9999', '12k', '1.0M', '12M']);
});
