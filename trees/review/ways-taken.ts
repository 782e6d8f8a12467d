import type { ChosenBlock } from './choose.ts';
import type { Tally } from './tally.ts';

/** By the code of a way, of which there are so many, how many confirmed jobs went it; entry 0 stands for none and is 0. */
export function openWaysTaken(ways: number): Tally<Uint32Array> {
  const counts = new Uint32Array(ways);
  return {
    add: (block) => countWays(counts, block),
    result() {
      counts[0] = 0;
      return counts;
    },
  };
}

function countWays(counts: Uint32Array, { columns, rows }: ChosenBlock): void {
  for (let at = 0; at < rows.length; at += 1) {
    const way = columns.way[rows[at] ?? 0] ?? 0;
    counts[way] = (counts[way] ?? 0) + 1;
  }
}
