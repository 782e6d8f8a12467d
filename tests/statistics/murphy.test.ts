import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { murphy, reliabilityBins } from '../../trees/statistics/index.ts';

/** Whole percents, each once, as the bench shows them. */
const rows = fc
  .uniqueArray(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 60 })
  .chain((percents) =>
    fc.tuple(
      ...percents.map((percent) =>
        fc.integer({ min: 1, max: 500 }).chain((count) =>
          fc.record({
            forecast: fc.constant(percent / 100),
            count: fc.constant(count),
            events: fc.integer({ min: 0, max: count }),
          }),
        ),
      ),
    ),
  );

describe('Murphy’s decomposition', () => {
  it('adds up to the Brier score, to 1e-12', () => {
    fc.assert(
      fc.property(rows, (given) => {
        const score = murphy(given);
        if (!score) throw new Error('no score');
        const sum = score.reliability - score.resolution + score.uncertainty;
        expect(Math.abs(score.brier - sum)).toBeLessThan(1e-12);
        for (const part of [score.reliability, score.resolution, score.uncertainty, score.brier]) {
          expect(part).toBeGreaterThanOrEqual(0);
          expect(part).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  it('does not mind the order of the forecasts, nor ones that were never given, to 1e-12', () => {
    fc.assert(
      fc.property(rows, (given) => {
        const score = murphy(given);
        const turned = murphy([{ forecast: 0.5, count: 0, events: 0 }, ...given.toReversed()]);
        expect(turned?.brier).toBeCloseTo(score?.brier ?? NaN, 12);
        expect(turned?.resolution).toBeCloseTo(score?.resolution ?? NaN, 12);
      }),
    );
  });

  it('finds sure and right forecasts perfect, and always giving the share over all without skill', () => {
    const sure = murphy([
      { forecast: 0, count: 3, events: 0 },
      { forecast: 1, count: 5, events: 5 },
    ]);
    expect(sure).toMatchObject({ brier: 0, reliability: 0, skill: 1 });
    expect(murphy([{ forecast: 0.25, count: 8, events: 2 }])).toMatchObject({ resolution: 0, skill: 0 });
  });

  it('says nothing of none, and nothing of skill where all came', () => {
    expect(murphy([])).toBeNull();
    expect(murphy([{ forecast: 0.3, count: 0, events: 0 }])).toBeNull();
    expect(murphy([{ forecast: 0.9, count: 4, events: 4 }])?.skill).toBeNull();
  });
});

describe('the bins of a reliability diagram', () => {
  it('put every whole percent into its tenth, and 100 % into the last', () => {
    for (let percent = 0; percent <= 100; percent++) {
      const [bin, ...more] = reliabilityBins([{ forecast: percent / 100, count: 1, events: 0 }], 10);
      expect(more).toEqual([]);
      expect(bin?.from).toBe(Math.min(9, Math.floor(percent / 10)) / 10);
    }
  });

  it('hold all forecasts and all that came, and leave out what is empty', () => {
    fc.assert(
      fc.property(rows, (given) => {
        const bins = reliabilityBins(given, 10);
        const total = (of: (row: (typeof given)[number]) => number) =>
          given.reduce((sum, row) => sum + of(row), 0);
        expect(bins.reduce((sum, { observed }) => sum + observed.of, 0)).toBe(total((row) => row.count));
        expect(bins.reduce((sum, { observed }) => sum + observed.count, 0)).toBe(total((row) => row.events));
        expect(bins.every(({ observed }) => observed.of > 0)).toBe(true);
      }),
    );
    expect(reliabilityBins([], 10)).toEqual([]);
  });

  it('stand at the mean of their forecasts', () => {
    const [bin] = reliabilityBins(
      [
        { forecast: 0.42, count: 1, events: 1 },
        { forecast: 0.48, count: 2, events: 0 },
      ],
      10,
    );
    expect(bin?.forecast).toBeCloseTo(0.46, 12);
    expect(bin?.observed).toMatchObject({ count: 1, of: 3 });
  });
});
