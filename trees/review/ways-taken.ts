import type { Chosen } from './choose.ts';

/** By the code of a way, how many confirmed jobs of a review went it; entry 0 stands for none. */
export function waysTaken({ blocks }: Chosen, ways: number): Uint32Array {
  const counts = new Uint32Array(ways);
  for (const { columns, rows } of blocks) {
    for (let at = 0; at < rows.length; at += 1) {
      const way = columns.way[rows[at] ?? 0] ?? 0;
      counts[way] = (counts[way] ?? 0) + 1;
    }
  }
  counts[0] = 0;
  return counts;
}
