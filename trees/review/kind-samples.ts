import type { Sample } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { NO_TIME } from './fact.ts';
import type { Kinds } from './kinds.ts';
import type { Tally } from './tally.ts';
import { oneMore } from './times.ts';

/** The times to finding (milliseconds) of a kind of job; null of none. */
export type KindSamples = (kind: number) => Sample | null;

interface Sums {
  readonly jobs: Uint32Array;
  /** Of the times, each and one. */
  readonly times: Float64Array;
  /** Of the times less the mean of their kind. */
  readonly squares: Float64Array;
}

/**
 * Count, mean and variance of the times to finding by kind of job, in two passes as `sampleOf`: the first as the blocks are
 * shown, the second at the end, with the means.
 */
export function openKindSamples({ blocks }: Chosen, kinds: Kinds): Tally<KindSamples> {
  const sums = {
    jobs: new Uint32Array(kinds.count),
    times: new Float64Array(kinds.count),
    squares: new Float64Array(kinds.count),
  };
  return {
    add: (block) => addTimes(sums, kinds, block),
    result() {
      const means = sums.times.map((sum, kind) => sum / Math.max(1, sums.jobs[kind] ?? 0) - 1);
      for (const block of blocks) addSquares(sums, means, kinds, block);
      return (kind) => {
        const count = sums.jobs[kind] ?? 0;
        if (count === 0) return null;
        const variance = count === 1 ? 0 : (sums.squares[kind] ?? 0) / (count - 1);
        return { count, mean: means[kind] ?? 0, variance };
      };
    },
  };
}

/** 1 where a number of 32 bits is more than 0, without a fork in the way of the processor (see `oneMore`). */
function isMore(value: number): number {
  return (value | -value) >>> 31;
}

function addTimes({ jobs, times }: Sums, { first, place }: Kinds, { columns, rows }: ChosenBlock): void {
  const { symptom, finding, advised, toFinding } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const more = oneMore(toFinding[row] ?? NO_TIME);
    const isTimed = isMore(more);
    const kind =
      (first[symptom[row] ?? 0] ?? 0) + (place[finding[row] ?? 0] ?? 0) + isMore(advised[row] ?? 0);
    jobs[kind] = (jobs[kind] ?? 0) + isTimed;
    times[kind] = (times[kind] ?? 0) + more;
  }
}

function addSquares(
  { squares }: Sums,
  means: Float64Array,
  { first, place }: Kinds,
  { columns, rows }: ChosenBlock,
): void {
  const { symptom, finding, advised, toFinding } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const more = oneMore(toFinding[row] ?? NO_TIME);
    const kind =
      (first[symptom[row] ?? 0] ?? 0) + (place[finding[row] ?? 0] ?? 0) + isMore(advised[row] ?? 0);
    const off = (more - 1 - (means[kind] ?? 0)) * isMore(more);
    squares[kind] = (squares[kind] ?? 0) + off * off;
  }
}
