import { select } from './select.ts';

/**
 * The points below which each of `shares` (0..1) of the values lies, in the order asked for: type 7 of Hyndman & Fan 1996
 * (Amer. Statist. 50:361-365), straight lines between the values in order. Takes time in proportion to the values, which are
 * copied, not sorted, and left as they are. Null of none.
 */
export function quantiles(
  values: Float64Array | Uint32Array,
  shares: readonly number[],
): readonly number[] | null {
  if (values.length === 0) return null;
  const copy = values.slice();
  return shares.map((share) => {
    const at = (copy.length - 1) * share;
    const rank = Math.floor(at);
    const below = select(copy, rank);
    if (at === rank) return below;
    return below + (at - rank) * (leastFrom(copy, rank + 1) - below);
  });
}

/** After a selection all that come after the rank are no smaller; the least of them is the next in order. */
function leastFrom(values: Float64Array | Uint32Array, from: number): number {
  let least = values[from] ?? Infinity;
  for (let index = from + 1; index < values.length; index++) {
    const value = values[index] ?? Infinity;
    if (value < least) least = value;
  }
  return least;
}
