import { describe, expect, test } from 'vitest';
import { murphy, reliabilityBins } from '../../trees/statistics/index.ts';
import values from './values/calibration.json' with { type: 'json' };

const { rain, rainTolerance, rainSource, rainBasis, curve } = values;

describe(`Brier score and its decomposition: ${rainSource} (${rainBasis})`, () => {
  test.each(rain)('$name', ({ rows, expected }) => {
    const score = murphy(rows);
    if (!score) throw new Error('no forecasts');
    const { bss, ...parts } = expected;
    for (const [part, value] of Object.entries({ ...parts, skill: bss })) {
      const ours = score[part as keyof typeof score] ?? NaN;
      expect(Math.abs(ours - value), part).toBeLessThanOrEqual(rainTolerance);
    }
  });
});

test(`a calibration curve: ${curve.source} (${curve.basis})`, () => {
  const rows = curve.forecasts.map((forecast, index) => ({
    forecast,
    count: 1,
    events: curve.came[index] ?? 0,
  }));
  const bins = reliabilityBins(rows, curve.bins);
  expect(bins).toHaveLength(curve.bins);
  bins.forEach(({ forecast, observed }, index) => {
    expect(Math.abs(forecast - (curve.forecast[index] ?? NaN))).toBeLessThanOrEqual(curve.tolerance);
    expect(Math.abs(observed.share - (curve.observed[index] ?? NaN))).toBeLessThanOrEqual(curve.tolerance);
  });
});
