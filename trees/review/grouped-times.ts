import { NO_TIME } from './fact.ts';
import type { ChosenBlock } from './choose.ts';

/** Lengths of time, laid together by the group that they belong to. */
export interface GroupedTimes {
  /** The times of the groups from one up to but not including another; in no order that means anything, and not a copy. */
  readonly of: (from: number, to: number) => Uint32Array;
}

/** Writes by row of a block its group's number into `groups`. */
export type GroupsOf = (block: ChosenBlock, groups: Uint32Array) => void;

/**
 * Lays one column's times together by group (a counting sort); rows that have none are left out. Two passes, so that no more
 * is kept than the times themselves.
 */
export function groupTimes(
  blocks: readonly ChosenBlock[],
  column: 'toFinding' | 'toProof',
  groupsOf: GroupsOf,
  groups: number,
): GroupedTimes {
  const longest = blocks.reduce((most, { rows }) => Math.max(most, rows.length), 0);
  const scratch = new Uint32Array(longest);
  const ends = new Uint32Array(groups + 1);
  for (const block of blocks) {
    groupsOf(block, scratch);
    countTimes(block, block.columns[column], scratch, ends);
  }
  for (let group = 0; group < groups; group += 1)
    ends[group + 1] = (ends[group + 1] ?? 0) + (ends[group] ?? 0);
  const next = ends.slice();
  const times = new Uint32Array(ends[groups] ?? 0);
  for (const block of blocks) {
    groupsOf(block, scratch);
    layTimes(block, block.columns[column], scratch, next, times);
  }
  return { of: (from, to) => times.subarray(ends[from] ?? 0, ends[to] ?? 0) };
}

function countTimes(
  { rows }: ChosenBlock,
  column: Uint32Array,
  groups: Uint32Array,
  ends: Uint32Array,
): void {
  for (let at = 0; at < rows.length; at += 1) {
    if (column[rows[at] ?? 0] === NO_TIME) continue;
    const end = (groups[at] ?? 0) + 1;
    ends[end] = (ends[end] ?? 0) + 1;
  }
}

function layTimes(
  { rows }: ChosenBlock,
  column: Uint32Array,
  groups: Uint32Array,
  next: Uint32Array,
  times: Uint32Array,
): void {
  for (let at = 0; at < rows.length; at += 1) {
    const time = column[rows[at] ?? 0] ?? NO_TIME;
    if (time === NO_TIME) continue;
    const group = groups[at] ?? 0;
    const place = next[group] ?? 0;
    times[place] = time;
    next[group] = place + 1;
  }
}
