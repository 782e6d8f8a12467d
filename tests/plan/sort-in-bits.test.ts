import fc from 'fast-check';
import { expect, it } from 'vitest';
import { sortInBits } from '../../trees/plan/sort-in-bits.ts';

interface Entry {
  readonly key: number;
  readonly place: number;
}

/** Of any length around the several hundred that are gone through at a time. */
const entries = fc
  .array(fc.nat(50), { maxLength: 2000, size: 'max' })
  .map((keys) => keys.map((key, place): Entry => ({ key, place })));

it('gives what an array’s own sort gives, level entries in their order', () => {
  fc.assert(
    fc.property(entries, (list) => {
      const byKey = (one: Entry, other: Entry): number => one.key - other.key;
      expect(runThrough(list, byKey).sorted).toEqual(list.toSorted(byKey));
    }),
  );
});

it('pauses after no more than some hundred entries, however many there are', () => {
  const list = Array.from({ length: 10_000 }, (_, place) => (place * 7919) % 10_000);
  let compared = 0;
  const { most } = runThrough(
    list,
    (one, other) => {
      compared += 1;
      return one - other;
    },
    () => {
      const since = compared;
      compared = 0;
      return since;
    },
  );
  // Some hundred entries sorted take about as many comparisons as they have digits, each.
  expect(most).toBeLessThan(256 * 8 + 256);
});

/** Sorts to the end; `most` is the most that `since` gave at a pause. */
function runThrough<T>(list: readonly T[], compare: (one: T, other: T) => number, since = () => 0) {
  const sorting = sortInBits(list, compare);
  let most = 0;
  let next = sorting.next();
  for (; next.done !== true; next = sorting.next()) most = Math.max(most, since());
  return { sorted: next.value, most };
}
