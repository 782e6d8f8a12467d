import { DAY, dayFrom } from './day.ts';
import { closingsOf } from './closings.ts';
import { everyRow, scratchOf } from './every-row.ts';
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

/** The closed jobs of a filter, and which of them were fixed the first time. One pass; no object a row. */
export function choose({ blocks, names }: Facts, filter: ReviewFilter, now: number): Chosen {
  const wanted = wantedBy(names, filter);
  const window = filter.window * DAY;
  let [jobs, first, last] = [0, Infinity, -Infinity];
  const chosen: ChosenBlock[] = [];
  for (const columns of blocks) {
    const rows = rowsOf(columns, wanted);
    if (rows.length === 0) continue;
    const span = closingsOf(columns, rows);
    [jobs, first, last] = [jobs + rows.length, Math.min(first, span.first), Math.max(last, span.last)];
    chosen.push({ columns, rows, flags: flagsOf(columns, rows, window, now) });
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

interface Wanted {
  /** There is no limit at all but the window. */
  readonly all: boolean;
  readonly from: number;
  /** The first moment that is past the filter. */
  readonly to: number;
  /** By code. */
  readonly symptoms: Uint8Array;
  readonly boards: Uint8Array;
  readonly technicians: Uint8Array;
}

function wantedBy(names: FactNames, { from, to, tree, board, technician }: ReviewFilter): Wanted {
  return {
    all: [from, to, tree, board, technician].every((limit) => limit === null),
    from: from === null ? -Infinity : dayFrom(from) * DAY,
    to: to === null ? Infinity : (dayFrom(to) + 1) * DAY,
    symptoms: Uint8Array.from(names.symptoms, (named) => Number(tree === null || named.tree === tree)),
    boards: Uint8Array.from(names.boards, (named) => Number(board === null || named.board === board)),
    technicians: Uint8Array.from(names.technicians, (id) => Number(technician === null || id === technician)),
  };
}

function rowsOf(columns: FactColumns, wanted: Wanted): Uint32Array {
  const all = everyRow(columns.rows);
  if (wanted.all) return all;
  const { from, to, symptoms, boards, technicians } = wanted;
  const { closedAt, symptom, board, technician } = columns;
  const rows = scratchOf(columns.rows);
  let count = 0;
  for (let row = 0; row < columns.rows; row += 1) {
    const closed = closedAt[row] ?? 0;
    rows[count] = row;
    count +=
      closed >= from && closed < to
        ? (symptoms[symptom[row] ?? 0] ?? 0) &
          (boards[board[row] ?? 0] ?? 0) &
          (technicians[technician[row] ?? 0] ?? 0)
        : 0;
  }
  return count === columns.rows ? all : rows.slice(0, count);
}

function flagsOf(columns: FactColumns, rows: Uint32Array, window: number, now: number): Uint8Array {
  const { outcome, failed, closedAt, backAt } = columns;
  const flags = new Uint8Array(rows.length);
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const closed = closedAt[row] ?? 0;
    const open = closed + window > now ? STILL_OPEN : 0;
    flags[at] = open;
    if (outcome[row] !== FIXED || failed[row] !== 0) continue;
    const back = backAt[row] ?? 0;
    if (back !== 0 && back <= now && back - closed < window) continue;
    flags[at] = FIRST_TIME | open;
  }
  return flags;
}
