import { expect, test } from 'vitest';
import { pointAfter, PointKeys } from '../../../app/review/plots/point-keys.svelte.ts';

test('arrow keys go from point to point and stop at the ends', () => {
  expect(
    ['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowUp', 'Home', 'End', 'a'].map((key) =>
      pointAfter(key, 1, 5),
    ),
  ).toEqual([2, 2, 0, 0, 0, 4, null]);
  expect([pointAfter('ArrowLeft', 0, 5), pointAfter('ArrowRight', 4, 5)]).toEqual([0, 4]);
});

test('one point is a tab stop, the one last focused, and the last where there are fewer now', () => {
  const keys = new PointKeys();
  const stops = (count: number): readonly number[] =>
    Array.from({ length: count }, (_, index) => index).filter((index) => keys.tabindex(index, count) === 0);
  expect(stops(4)).toEqual([0]);
  keys.focused(3);
  expect(stops(4)).toEqual([3]);
  expect(stops(2)).toEqual([1]);
});

test('a point left is no longer read, but another that was come to since is', () => {
  const keys = new PointKeys();
  keys.focused(1);
  keys.focused(2);
  keys.left(1);
  expect(keys.pointed).toBe(2);
  keys.left(2);
  expect(keys.pointed).toBeNull();
});
