import { describe, expect, it } from 'vitest';
import { trend } from '../../trees/statistics/index.ts';
import values from './values/trend.json' with { type: 'json' };

describe.each(values.examples)(
  'the trend of $name: $source ($basis)',
  ({ counts, of, at, square, chance, falls }) => {
    const line = trend(counts.map((count, index) => ({ count, of: of[index] ?? 0, at: at[index] ?? 0 })));
    if (line === null) throw new Error('no trend');

    it('has the printed chi-square and its chance', () => {
      expect(Math.abs(line.deviations ** 2 - square.value)).toBeLessThanOrEqual(square.tolerance);
      expect(Math.abs(line.chance - chance.value)).toBeLessThanOrEqual(chance.tolerance);
    });

    it('goes the way of the shares', () => {
      expect(line.slope < 0).toBe(falls);
    });
  },
);
