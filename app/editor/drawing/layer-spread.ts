import type { Layers } from './layers.ts';
import { ASIDE } from './placed.ts';

const SWEEPS = 6;

/** The left edge of every cell: in the order of its layer, without overlap, each as near the middle of its neighbours as room allows. */
export function spreadLayers(layers: Layers): Float64Array {
  const { rows, width, above, below } = layers;
  const middle = new Float64Array(width.length);
  for (const row of rows) settle(row, width, middle, () => 0);
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    const down = sweep % 2 === 0;
    const neighbours = down ? above : below;
    for (const row of down ? rows : rows.toReversed())
      settle(row, width, middle, (cell) => wanted(neighbours[cell] ?? [], middle, cell));
  }
  return middle.map((x, cell) => Math.round(x - (width[cell] ?? 0) / 2));
}

function wanted(neighbours: readonly number[], middle: Float64Array, cell: number): number {
  if (neighbours.length === 0) return middle[cell] ?? 0;
  return neighbours.reduce((sum, other) => sum + (middle[other] ?? 0), 0) / neighbours.length;
}

interface Block {
  readonly start: number;
  /** The sum of what its cells want for its first cell, and how many they are. */
  sum: number;
  count: number;
}

/**
 * The least squares solution to "each cell where it wants to be, in order and without overlap": cells that would overlap
 * are moved as one block to the mean of what they want (pool adjacent violators).
 */
function settle(
  row: readonly number[],
  width: readonly number[],
  middle: Float64Array,
  want: (cell: number) => number,
): void {
  const offset = new Float64Array(row.length);
  for (let at = 1; at < row.length; at += 1)
    offset[at] =
      (offset[at - 1] ?? 0) + ((width[row[at - 1] ?? 0] ?? 0) + (width[row[at] ?? 0] ?? 0)) / 2 + ASIDE;
  const blocks: Block[] = [];
  row.forEach((cell, start) => {
    blocks.push({ start, sum: want(cell) - (offset[start] ?? 0), count: 1 });
    for (let last = blocks.at(-1), before = blocks.at(-2); last && before;) {
      if (before.sum / before.count <= last.sum / last.count) break;
      before.sum += last.sum;
      before.count += last.count;
      blocks.pop();
      [last, before] = [blocks.at(-1), blocks.at(-2)];
    }
  });
  for (const { start, sum, count } of blocks)
    for (let at = start; at < start + count; at += 1) middle[row[at] ?? 0] = sum / count + (offset[at] ?? 0);
}
