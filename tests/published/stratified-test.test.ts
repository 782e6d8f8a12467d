import cdf from '@stdlib/stats-base-dists-normal-cdf';
import { expect, test } from 'vitest';
import { stratifiedTest, type TwoByTwo } from '../../trees/statistics/index.ts';
import { treated, control } from './values/kaplan-meier.json' with { type: 'json' };
import { rabbits, remission } from './values/stratified-test.json' with { type: 'json' };

test(`exact and approximate chances: ${rabbits.source} (${rabbits.basis})`, () => {
  const tables = rabbits.tables as unknown as readonly TwoByTwo[];
  const { count, expected, variance, chance } = stratifiedTest(tables);
  expect(Math.abs(chance - rabbits.exact)).toBeLessThanOrEqual(rabbits.tolerance);
  const corrected = 2 * cdf(-(Math.abs(count - expected) - 0.5) / Math.sqrt(variance), 0, 1);
  expect(Math.abs(corrected - rabbits.corrected)).toBeLessThanOrEqual(rabbits.tolerance);
});

test(`the log-rank test, a table a week: ${remission.source} (${remission.basis})`, () => {
  const ours = treated.times.map(([week = 0, was]) => ({ week, isEvent: was === 1 }));
  const others = control.times.map((week) => ({ week, isEvent: true }));
  const weeks = new Set([...ours, ...others].filter(({ isEvent }) => isEvent).map(({ week }) => week));
  const row = (arm: typeof ours, on: number): readonly [number, number] => {
    const events = arm.filter(({ week, isEvent }) => isEvent && week === on).length;
    return [events, arm.filter(({ week }) => week >= on).length - events];
  };
  const { count, expected, variance } = stratifiedTest(
    [...weeks].map((on) => [row(ours, on), row(others, on)]),
  );
  expect(count).toBe(remission.events);
  expect(Math.abs(expected - remission.expected.value)).toBeLessThanOrEqual(remission.expected.tolerance);
  const square = (count - expected) ** 2 / variance;
  expect(Math.abs(square - remission.square.value)).toBeLessThanOrEqual(remission.square.tolerance);
});
