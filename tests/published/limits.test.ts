import { describe, expect, it, test } from 'vitest';
import { figuresAt, rocOf, youden } from '../../trees/limits/index.ts';
import values from './values/limits.json' with { type: 'json' };

const { ratings } = values;

const rated = (counts: readonly number[], positive: boolean) =>
  counts.flatMap((count, index) => Array.from({ length: count }, () => ({ at: index + 1, positive })));
const readings = [...rated(ratings.negatives, false), ...rated(ratings.positives, true)];
const isPositive = (reading: { readonly positive: boolean }): boolean => reading.positive;

describe(`the area under a curve: ${ratings.source} (${ratings.basis})`, () => {
  const roc = rocOf(readings, isPositive);

  it('is the printed one', () => {
    expect(Math.abs((roc?.area ?? 0) - ratings.area)).toBeLessThanOrEqual(ratings.areaTolerance);
  });

  it('has the printed standard error', () => {
    const error = Math.abs((roc?.standardError ?? 0) - ratings.standardError);
    expect(error).toBeLessThanOrEqual(ratings.standardErrorTolerance);
  });
});

describe(`Youden’s index: ${values.youden.source} (${values.youden.basis})`, () => {
  test.each(values.youden.rows)('from rating $from on it is $index', (row) => {
    const figures = figuresAt(readings, isPositive, row.from);
    expect([figures.sensitivity.count, figures.sensitivity.of]).toEqual(row.sensitivity);
    expect([figures.specificity.count, figures.specificity.of]).toEqual(row.specificity);
    expect(Math.abs(figures.youden - row.index)).toBeLessThanOrEqual(values.youden.tolerance);
  });

  it(`is largest for the limit below rating ${String(values.youden.best)}`, () => {
    const suggestion = youden(readings, isPositive, { present: null, above: -Infinity, below: Infinity });
    if (suggestion.kind !== 'move') throw new Error(suggestion.kind);
    expect(suggestion.gap).toEqual([values.youden.best - 1, values.youden.best]);
    expect(suggestion.best.limit).toBe(values.youden.best - 0.5);
  });
});
