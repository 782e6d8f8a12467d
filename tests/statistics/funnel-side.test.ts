import { expect, test } from 'vitest';
import { binomialTails, funnelSide } from '../../trees/statistics/index.ts';

test('of one or of none nobody is outside a funnel, unless the target makes it all but impossible', () => {
  expect([funnelSide(1, 1, 0.8), funnelSide(0, 1, 0.8), funnelSide(0, 0, 0.8)]).toEqual([
    'within',
    'within',
    'within',
  ]);
  expect(funnelSide(0, 1, 0.9995)).toBe('below');
});

test('outside is exactly where the tail is rarer than 1 of 1000', () => {
  for (const of of [10, 60, 400])
    for (let count = 0; count <= of; count += 1) {
      const { atMost, atLeast } = binomialTails(count, of, 0.8);
      const side = atMost < 0.001 ? 'below' : atLeast < 0.001 ? 'above' : 'within';
      expect(funnelSide(count, of, 0.8)).toBe(side);
    }
});

test('at a target of all or none only what the target rules out is outside', () => {
  expect([funnelSide(5, 5, 1), funnelSide(4, 5, 1)]).toEqual(['within', 'below']);
  expect([funnelSide(0, 5, 0), funnelSide(1, 5, 0)]).toEqual(['within', 'above']);
});
