/** Moves labels of one height down or up, in their order, until none runs into another and all lie between `from` and `to`. */
export function settleLabels(
  middles: readonly number[],
  height: number,
  from: number,
  to: number,
): readonly number[] {
  const order = middles.map((at, index) => ({ at, index })).sort((a, b) => a.at - b.at);
  const settled = middles.map(() => 0);
  let least = from + height / 2;
  for (const [rank, { at, index }] of order.entries()) {
    const most = to - height / 2 - (order.length - 1 - rank) * height;
    const middle = Math.max(least, Math.min(at, most));
    settled[index] = middle;
    least = middle + height;
  }
  return settled;
}
