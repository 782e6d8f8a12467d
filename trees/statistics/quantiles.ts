import { valuesAt } from './values-at.ts';

/**
 * The points below which each of `shares` (0..1) of the values lies, in the order asked for: type 7 of Hyndman & Fan 1996
 * (Amer. Statist. 50:361-365), straight lines between the values in order. The values are left as they are; whole ones
 * take time in proportion to their number, broken ones (none of them NaN) are sorted in a copy. Null of none.
 */
export function quantiles(
  values: Uint32Array | Float64Array,
  shares: readonly number[],
): readonly number[] | null {
  const last = values.length - 1;
  if (last < 0) return null;
  const ranks = shares.flatMap((share) => [Math.floor(last * share), Math.ceil(last * share)]);
  const at = valuesAt(values, ranks);
  return shares.map((share, index) => {
    const [below = 0, above = 0] = at.slice(2 * index, 2 * index + 2);
    const position = last * share;
    return below + (position - Math.floor(position)) * (above - below);
  });
}
