/**
 * Middles of labels of these heights, given from the top down: as near to where they are wanted as they can be between
 * `from` and `to`, none over another. In too small a room they run out of it at the bottom.
 */
export function settleLabels(
  wanted: readonly { readonly at: number; readonly height: number }[],
  from: number,
  to: number,
): readonly number[] {
  const settled: number[] = [];
  let least = from;
  for (const [index, { at, height }] of wanted.entries()) {
    const after = wanted.slice(index + 1).reduce((sum, next) => sum + next.height, 0);
    const middle = Math.max(least + height / 2, Math.min(at, to - after - height / 2));
    settled.push(middle);
    least = middle + height / 2;
  }
  return settled;
}
