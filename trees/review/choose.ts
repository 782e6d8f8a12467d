import { DAY, dayFrom } from './day.ts';
import { closingsOf, type Closings } from './closings.ts';
import { everyRow, roomFor } from './every-row.ts';
import type { FactColumns, FactNames, Facts, ReviewFilter } from './fact.ts';

/** The job was fixed the first time, as far as is known. */
export const FIRST_TIME = 1;
/** Its window has not passed yet: if it was fixed, it may still come back. */
export const STILL_OPEN = 2;
/** The number of `fixed` in OUTCOMES. */
export const FIXED = 0;

/** A day's facts, and which of its rows a review is of. */
export interface ChosenBlock {
  readonly columns: FactColumns;
  /** Ascending. */
  readonly rows: Uint32Array;
  /** Beside `rows`: {@link FIRST_TIME} and {@link STILL_OPEN}. */
  readonly flags: Uint8Array;
}

/** The closed jobs that a review is of. */
export interface Chosen {
  readonly blocks: readonly ChosenBlock[];
  readonly jobs: number;
  readonly names: FactNames;
  readonly window: number;
  readonly now: number;
  /** The moments of the first and the last closing; of no job Infinity and -Infinity. */
  readonly first: number;
  readonly last: number;
}

/**
 * The closed jobs of a filter, and which of them were fixed the first time. One pass; no object a row. What is chosen is good
 * until it is chosen anew: all choices share their memory.
 */
export function choose({ blocks, names }: Facts, filter: ReviewFilter, now: number): Chosen {
  const wanted = wantedBy(names, filter);
  const window = filter.window * DAY;
  const room = roomFor(blocks.reduce((sum, columns) => sum + columns.rows, 0));
  let [jobs, first, last] = [0, Infinity, -Infinity];
  const chosen: ChosenBlock[] = [];
  for (const columns of blocks) {
    const rows = rowsOf(columns, wanted, room.rows.subarray(jobs, jobs + columns.rows));
    if (rows.length === 0) continue;
    const span = closingsOf(columns, rows);
    const flags = room.flags.subarray(jobs, jobs + rows.length);
    putFlags(flags, columns, rows, window, now);
    [jobs, first, last] = [jobs + rows.length, Math.min(first, span.first), Math.max(last, span.last)];
    chosen.push({ columns, rows, flags });
  }
  return { blocks: chosen, jobs, names, window: filter.window, now, first, last };
}

/**
 * Whole days, begun ones counted, after which a unit was back: within so many days it was back. 0 where it was not, as far as
 * is known at `now`.
 */
export function daysToBack(closedAt: number, backAt: number, now: number): number {
  return backAt === 0 || backAt > now ? 0 : daysBetween(closedAt, backAt);
}

/** Days from one moment to another, the one that it falls in counted. At least 1. */
export function daysBetween(from: number, to: number): number {
  return to <= from ? 1 : Math.floor((to - from) / DAY) + 1;
}

type Coded = 'symptom' | 'board' | 'technician';

interface Wanted {
  readonly from: number;
  /** The first moment that is past the filter. */
  readonly to: number;
  /** The columns that are limited, by code 1 where a job is wanted. */
  readonly coded: readonly { readonly column: Coded; readonly isWanted: Uint8Array }[];
}

function wantedBy(names: FactNames, { from, to, tree, board, technician }: ReviewFilter): Wanted {
  const symptoms = () => Uint8Array.from(names.symptoms, (named) => Number(named.tree === tree));
  const boards = () => Uint8Array.from(names.boards, (named) => Number(named.board === board));
  const technicians = () => Uint8Array.from(names.technicians, (id) => Number(id === technician));
  return {
    from: from === null ? -Infinity : dayFrom(from) * DAY,
    to: to === null ? Infinity : (dayFrom(to) + 1) * DAY,
    coded: [
      ...(tree === null ? [] : [{ column: 'symptom', isWanted: symptoms() } as const]),
      ...(board === null ? [] : [{ column: 'board', isWanted: boards() } as const]),
      ...(technician === null ? [] : [{ column: 'technician', isWanted: technicians() } as const]),
    ],
  };
}

/** Written into `room` where they are not all. */
function rowsOf(columns: FactColumns, wanted: Wanted, room: Uint32Array): Uint32Array {
  const all = everyRow(columns.rows);
  const span = closingsOf(columns, all);
  if (span.last < wanted.from || span.first >= wanted.to) return room.subarray(0, 0);
  let rows = all;
  if (!isWithin(span, wanted)) rows = closedIn(columns.closedAt, rows, wanted, room);
  for (const { column, isWanted } of wanted.coded) rows = codedAs(columns[column], rows, isWanted, room);
  return rows.length === columns.rows ? all : rows;
}

function isWithin({ first, last }: Closings, { from, to }: Wanted): boolean {
  return first >= from && last < to;
}

// A row is written before it is known whether it stays: jobs come in no order that a processor could foresee.

function closedIn(
  closedAt: Float64Array,
  rows: Uint32Array,
  { from, to }: Wanted,
  room: Uint32Array,
): Uint32Array {
  let count = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const closed = closedAt[row] ?? 0;
    room[count] = row;
    if (closed >= from && closed < to) count += 1;
  }
  return room.subarray(0, count);
}

function codedAs(
  codes: FactColumns[Coded],
  rows: Uint32Array,
  isWanted: Uint8Array,
  room: Uint32Array,
): Uint32Array {
  let count = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    room[count] = row;
    count += isWanted[codes[row] ?? 0] ?? 0;
  }
  return room.subarray(0, count);
}

function putFlags(
  flags: Uint8Array,
  columns: FactColumns,
  rows: Uint32Array,
  window: number,
  now: number,
): void {
  const { outcome, failed, closedAt, backAt } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const closed = closedAt[row] ?? 0;
    const back = backAt[row] ?? 0;
    const open = closed + window > now ? STILL_OPEN : 0;
    // 1 where both numbers, FIXED being 0, are 0.
    let first = (((outcome[row] ?? 0) | (failed[row] ?? 0)) - 1) >>> 31;
    if (back !== 0 && back <= now && back - closed < window) first = 0;
    flags[at] = first | open;
  }
}
