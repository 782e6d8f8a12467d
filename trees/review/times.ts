import type { Chosen, ChosenBlock } from './choose.ts';
import { NO_TIME } from './fact.ts';
import { putKinds, type Kinds } from './kinds.ts';
import type { Tally } from './tally.ts';

/** Lengths of time (milliseconds), laid together by kind of job. Jobs that have none are left out. */
export interface TimesByKind {
  /** The times of the kinds from one up to but not including another, in no order that means anything; not a copy. */
  readonly toFinding: (from: number, to: number) => Uint32Array;
  readonly toProof: (from: number, to: number) => Uint32Array;
}

/** One column in the making: by kind, where its times end (while they are counted, one further on how many there are). */
interface Laying {
  readonly column: 'toFinding' | 'toProof';
  readonly ends: Uint32Array;
}

/**
 * Lays the times to finding and to proof together (a counting sort). They are counted as the blocks are shown and laid
 * at the end, so that no more is kept than the times themselves.
 */
export function openTimes({ blocks }: Chosen, kinds: Kinds): Tally<TimesByKind> {
  const longest = blocks.reduce((most, { rows }) => Math.max(most, rows.length), 0);
  const scratch = new Uint32Array(longest);
  const laying = (column: Laying['column']): Laying => ({ column, ends: new Uint32Array(kinds.count + 1) });
  const [finding, proof] = [laying('toFinding'), laying('toProof')];
  return {
    add(block) {
      putKinds(block, kinds, scratch);
      countTimes(block, finding, scratch);
      countTimes(block, proof, scratch);
    },
    result() {
      const toFinding = startOf(finding);
      const toProof = startOf(proof);
      for (const block of blocks) {
        putKinds(block, kinds, scratch);
        layTimes(block, finding.column, scratch, toFinding);
        layTimes(block, proof.column, scratch, toProof);
      }
      const between =
        ({ ends }: Laying, times: Uint32Array) =>
        (from: number, to: number) =>
          times.subarray(ends[from] ?? 0, ends[to] ?? 0);
      return { toFinding: between(finding, toFinding.times), toProof: between(proof, toProof.times) };
    },
  };
}

function countTimes({ columns, rows }: ChosenBlock, { column, ends }: Laying, kinds: Uint32Array): void {
  const times = columns[column];
  for (let at = 0; at < rows.length; at += 1) {
    if (times[rows[at] ?? 0] === NO_TIME) continue;
    const end = (kinds[at] ?? 0) + 1;
    ends[end] = (ends[end] ?? 0) + 1;
  }
}

interface Laid {
  readonly times: Uint32Array;
  /** By kind, where the next of its times goes. */
  readonly next: Uint32Array;
}

function startOf({ ends }: Laying): Laid {
  for (let kind = 1; kind < ends.length; kind += 1) ends[kind] = (ends[kind] ?? 0) + (ends[kind - 1] ?? 0);
  return { times: new Uint32Array(ends.at(-1) ?? 0), next: ends.slice() };
}

function layTimes(
  { columns, rows }: ChosenBlock,
  column: Laying['column'],
  kinds: Uint32Array,
  { times, next }: Laid,
): void {
  const from = columns[column];
  for (let at = 0; at < rows.length; at += 1) {
    const time = from[rows[at] ?? 0] ?? NO_TIME;
    if (time === NO_TIME) continue;
    const kind = kinds[at] ?? 0;
    const place = next[kind] ?? 0;
    times[place] = time;
    next[kind] = place + 1;
  }
}
