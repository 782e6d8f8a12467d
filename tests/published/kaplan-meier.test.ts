import { describe, expect, it, test } from 'vitest';
import { kaplanMeier } from '../../trees/statistics/index.ts';
import values from './values/kaplan-meier.json' with { type: 'json' };

const { treated, control } = values;

/** How many there are on each day up to the last one. */
const byDay = (days: readonly number[]): Uint32Array => {
  const counts = new Uint32Array(Math.max(-1, ...days) + 1);
  for (const day of days) counts[day] = (counts[day] ?? 0) + 1;
  return counts;
};
const daysOf = (event: number): number[] =>
  treated.times.flatMap(([day = 0, was]) => (was === event ? [day] : []));

describe(`treated arm: ${treated.source} (${treated.basis})`, () => {
  const curve = kaplanMeier(byDay(daysOf(1)), byDay(daysOf(0)), []);

  it('has a point for each printed time and no other', () => {
    expect(curve.map(({ days }) => days)).toEqual(treated.rows.map(({ days }) => days));
  });

  test.each(treated.rows)('$days: $survival, error $error', (row) => {
    const point = curve.find(({ days }) => days === row.days);
    if (!point) throw new Error('no point');
    expect([point.atRisk, point.events]).toEqual([row.atRisk, row.events]);
    expect(Math.abs(point.survival - row.survival)).toBeLessThanOrEqual(treated.tolerance);
    expect(Math.abs(point.error - row.error)).toBeLessThanOrEqual(treated.tolerance);
  });
});

test(`control arm, none lost from sight: ${control.source} (${control.basis})`, () => {
  const curve = kaplanMeier(byDay(control.times), [], [control.at]);
  const point = curve.find(({ days }) => days === control.at);
  if (!point) throw new Error('no point');
  expect(Math.abs(point.survival - control.survival)).toBeLessThanOrEqual(control.tolerance);
  expect(Math.abs(point.error - control.error)).toBeLessThanOrEqual(control.tolerance);
});
