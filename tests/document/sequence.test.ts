import { expect, it } from 'vitest';
import fc from 'fast-check';
import { commonPairs, stayingOf } from '../../trees/document/index.ts';

const letters = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 9 });
const same = (one: string, other: string) => one === other;

/** The length of a longest common subsequence by its definition, without a table. */
function longest(one: readonly string[], other: readonly string[]): number {
  const [first, ...rest] = one;
  if (first === undefined) return 0;
  const at = other.indexOf(first);
  const without = longest(rest, other);
  return at < 0 ? without : Math.max(without, 1 + longest(rest, other.slice(at + 1)));
}

it('pairs rise in both sequences, pair what is the same, and are as many as can be', () => {
  fc.assert(
    fc.property(letters, letters, (one, other) => {
      const pairs = commonPairs(one, other, same);
      expect(pairs).toHaveLength(longest(one, other));
      pairs.forEach(([former, latter], index) => {
        expect(one[former]).toBe(other[latter]);
        const [before, behind] = pairs[index - 1] ?? [-1, -1];
        expect(former > before && latter > behind).toBe(true);
      });
    }),
    { numRuns: 500 },
  );
});

it('lists of thousands are paired where they begin and end alike, and are not searched beyond the bound', () => {
  const long = Array.from({ length: 40_000 }, (_, index) => String(index));
  const other = long.map((word, index) => (index > 10 && index < 39_990 ? `${word}x` : word));
  expect(commonPairs(long, other, same)).toHaveLength(11 + 10);
  expect(commonPairs(long, long.toSpliced(20_000, 1), same)).toHaveLength(39_999);
});

it('those that stay are in order, and no larger set is', () => {
  const ids = ['a', 'b', 'c', 'd', 'e', 'f'];
  fc.assert(
    fc.property(fc.shuffledSubarray(ids, { minLength: 6 }), (wanted) => {
      const staying = stayingOf(ids, wanted);
      const kept = wanted.filter((id) => staying.has(id));
      expect(kept).toEqual([...kept].sort());
      expect(staying.size).toBe(longest(ids, wanted));
    }),
  );
});
