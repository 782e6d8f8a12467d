import type { ChosenBlock } from './choose.ts';
import type { FactColumns } from './fact.ts';

/** Counts or sums in the making. */
export type Sums = readonly (Uint32Array | Float64Array)[];

/** Blocks of fewer rows are counted sooner than what is kept of them is added. */
const MANY = 256;

/**
 * Adds what `count` counts of a block. Where all rows of a block are asked for, as they are of nearly all days by a filter by
 * time, it is counted once and kept as long as there is the block: `count` may go by nothing but the block's own rows.
 */
export function countedOnce<S extends Sums>(
  count: (sums: S, block: ChosenBlock) => void,
): (sums: S, block: ChosenBlock) => void {
  // A block that changes becomes another one.
  const known = new WeakMap<FactColumns, S>();
  return (sums, block) => {
    const { columns, rows } = block;
    if (rows.length < columns.rows || rows.length < MANY) return count(sums, block);
    const kept = known.get(columns);
    if (kept !== undefined) return addUp(sums, kept);
    const once = sums.map((one) => one.slice().fill(0)) as unknown as S; // as many of the same kinds
    count(once, block);
    known.set(columns, once);
    addUp(sums, once);
  };
}

function addUp(sums: Sums, added: Sums): void {
  for (const [place, more] of added.entries()) {
    const sum = sums[place];
    if (sum === undefined) continue;
    for (let at = 0; at < more.length; at += 1) sum[at] = (sum[at] ?? 0) + (more[at] ?? 0);
  }
}
