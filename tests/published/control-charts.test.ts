import { describe, expect, it } from 'vitest';
import { pChart } from '../../trees/statistics/index.ts';
import values from './values/control-charts.json' with { type: 'json' };

const { nonconforming, of, proportions, numbers, source } = values.wafers;
const chart = pChart(nonconforming.map((count) => ({ count, of })));
if (!chart) throw new Error('no chart');

describe(`p-chart: ${source} (${proportions.basis})`, () => {
  it('has the printed centre line', () => {
    expect(Math.abs(chart.centre - proportions.centre)).toBeLessThanOrEqual(proportions.tolerance);
  });

  it('has the printed limits at every sample', () => {
    expect(chart.points).toHaveLength(nonconforming.length);
    for (const { low, high } of chart.points) {
      expect(Math.abs(low - proportions.low)).toBeLessThanOrEqual(proportions.tolerance);
      expect(Math.abs(high - proportions.high)).toBeLessThanOrEqual(proportions.tolerance);
    }
  });

  it('marks the printed samples as out of control, and no other', () => {
    const marked = chart.points.flatMap((point, index) => (point.outOfControl ? [index + 1] : []));
    expect(marked).toEqual(proportions.outOfControl);
  });
});

describe(`np chart, as the p-chart times the sample: ${source} (${numbers.basis})`, () => {
  it('has the printed centre line and limits', () => {
    const [first] = chart.points;
    if (!first) throw new Error('no point');
    expect(Math.abs(chart.centre * of - numbers.centre)).toBeLessThanOrEqual(numbers.tolerance);
    expect(Math.abs(first.low * of - numbers.low)).toBeLessThanOrEqual(numbers.tolerance);
    expect(Math.abs(first.high * of - numbers.high)).toBeLessThanOrEqual(numbers.tolerance);
  });
});
