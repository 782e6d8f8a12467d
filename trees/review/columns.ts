import { OUTCOMES } from '../chart/index.ts';
import {
  NO_TIME,
  NOT_SHOWN,
  SHOWN,
  type FactColumns,
  type FactNames,
  type JobFact,
  type Way,
} from './fact.ts';
import { firstFrom } from './first-from.ts';

/** One row of the columns. */
export type FactRow = { readonly [K in Exclude<keyof FactColumns, 'rows' | 'shown'>]: number } & {
  readonly shown: readonly number[];
};

/** The codes that stand in the columns for a fact's names. */
export type FactCodes = Pick<FactRow, 'symptom' | 'finding' | 'tried' | 'board' | 'technician' | 'way'>;

/** The columns in the order they are packed in: widest numbers first, so that each begins where its numbers may. */
const ORDER = [
  'place',
  'closedAt',
  'backAt',
  'parts',
  'toFinding',
  'toProof',
  'atBench',
  'way',
  'symptom',
  'finding',
  'tried',
  'board',
  'technician',
  'tests',
  'outcome',
  'failed',
  'advised',
  'confirmed',
  'listed',
  'shown',
] as const satisfies readonly Exclude<keyof FactColumns, 'rows'>[];

/** Bytes that a row takes. */
export const ROW_BYTES = 4 * 8 + 4 * 4 + 6 * 2 + 5 + SHOWN;

/** The columns end to end, each in the machine's own byte order (little-endian wherever the app runs). */
export function packColumns(columns: FactColumns): Uint8Array {
  const packed = new Uint8Array(columns.rows * ROW_BYTES);
  let at = 0;
  for (const name of ORDER) {
    const { buffer, byteOffset, byteLength } = columns[name];
    packed.set(new Uint8Array(buffer, byteOffset, byteLength), at);
    at += byteLength;
  }
  return packed;
}

/** The columns of so many rows from what {@link packColumns} made, copied: the bytes may be written to afterwards. */
export function unpackColumns(rows: number, packed: Uint8Array): FactColumns {
  if (packed.byteLength !== rows * ROW_BYTES)
    throw new Error(`facts-damaged: ${String(rows)} rows in ${String(packed.byteLength)} bytes`);
  const buffer = new ArrayBuffer(packed.byteLength);
  new Uint8Array(buffer).set(packed);
  return over(rows, buffer);
}

/**
 * The same laid over the bytes themselves, which belong to the columns from then on; copied only where they are part of a
 * larger buffer.
 */
export function columnsOver(rows: number, packed: Uint8Array<ArrayBuffer>): FactColumns {
  const { buffer, byteLength } = packed;
  if (byteLength !== buffer.byteLength || byteLength !== rows * ROW_BYTES) return unpackColumns(rows, packed);
  return over(rows, buffer);
}

/** Columns of so many rows, all zero. */
export function blankColumns(rows: number): FactColumns {
  return over(rows, new ArrayBuffer(rows * ROW_BYTES));
}

function over(rows: number, buffer: ArrayBuffer): FactColumns {
  let at = 0;
  const next = (size: number): number => {
    const from = at;
    at += size * rows;
    return from;
  };
  const wide = () => new Float64Array(buffer, next(8), rows);
  const long = () => new Uint32Array(buffer, next(4), rows);
  const short = () => new Uint16Array(buffer, next(2), rows);
  const byte = (each = 1) => new Uint8Array(buffer, next(each), rows * each);
  // In the order of ORDER.
  return {
    rows,
    place: wide(),
    closedAt: wide(),
    backAt: wide(),
    parts: wide(),
    toFinding: long(),
    toProof: long(),
    atBench: long(),
    way: long(),
    symptom: short(),
    finding: short(),
    tried: short(),
    board: short(),
    technician: short(),
    tests: short(),
    outcome: byte(),
    failed: byte(),
    advised: byte(),
    confirmed: byte(),
    listed: byte(),
    shown: byte(SHOWN),
  };
}

/** The columns of these rows, which ascend by place. */
export function columnsOf(rows: readonly FactRow[]): FactColumns {
  const made = blankColumns(rows.length);
  for (const name of ORDER) {
    if (name === 'shown') rows.forEach(({ shown }, at) => made.shown.set(shown.slice(0, SHOWN), at * SHOWN));
    else rows.forEach((row, at) => (made[name][at] = row[name]));
  }
  return made;
}

/** The row of a place, -1 where it has none. */
export function rowAt({ place }: FactColumns, wanted: number): number {
  const at = firstFrom(place, wanted);
  return place[at] === wanted ? at : -1;
}

/** The columns with a row added, or put in the stead of the one of its place. */
export function withRow(columns: FactColumns, row: FactRow): FactColumns {
  const at = firstFrom(columns.place, row.place);
  const isThere = columns.place[at] === row.place;
  const grown = spliced(columns, at, isThere ? 1 : 0, 1);
  for (const name of ORDER) {
    if (name === 'shown') grown.shown.set(row.shown.slice(0, SHOWN), at * SHOWN);
    else grown[name][at] = row[name];
  }
  return grown;
}

/** The columns without the row of a place; the same where it has none. */
export function withoutRow(columns: FactColumns, place: number): FactColumns {
  const at = rowAt(columns, place);
  return at < 0 ? columns : spliced(columns, at, 1, 0);
}

/** A copy with `blank` rows of zeros from row `at` on, where `dropped` rows were. */
function spliced(columns: FactColumns, at: number, dropped: number, blank: number): FactColumns {
  const made = blankColumns(columns.rows - dropped + blank);
  for (const name of ORDER) {
    const each = name === 'shown' ? SHOWN : 1;
    const [from, to] = [columns[name], made[name]];
    to.set(from.subarray(0, at * each));
    to.set(from.subarray((at + dropped) * each), (at + blank) * each);
  }
  return made;
}

/** A fact as a row. What a column cannot hold stands as the most that it can: 49 days, 65,535 tests, 255 of the rest. */
export function rowOf(fact: JobFact, codes: FactCodes): FactRow {
  const { place, closedAt, backAt, parts, toFinding, toProof, atBench, confirmed, shown } = fact;
  return {
    ...codes,
    place,
    closedAt,
    backAt: backAt ?? 0,
    parts,
    toFinding: length(toFinding),
    toProof: length(toProof),
    atBench: length(atBench),
    tests: Math.min(fact.tests, 0xffff),
    outcome: OUTCOMES.indexOf(fact.outcome),
    failed: Math.min(fact.failed, 0xff),
    advised: Math.min(fact.advised, 0xff),
    confirmed: confirmed ?? NOT_SHOWN,
    listed: shown.length,
    shown,
  };
}

function length(milliseconds: number | null): number {
  return milliseconds === null ? NO_TIME : Math.min(milliseconds, NO_TIME - 1);
}

/** The fact that a row stands for. Codes that have no name are bugs and throw. */
export function factAt(
  columns: FactColumns,
  row: number,
  names: FactNames,
  ways: readonly (Way | undefined)[],
): JobFact {
  const way = at(columns.way, row);
  const findingOf = (code: number): string | null =>
    code === 0 ? null : named(names.findings, code).finding;
  const [backAt, confirmed] = [at(columns.backAt, row), at(columns.confirmed, row)];
  const { tree, symptom } = named(names.symptoms, at(columns.symptom, row));
  return {
    place: at(columns.place, row),
    closedAt: at(columns.closedAt, row),
    tree,
    symptom,
    board: named(names.boards, at(columns.board, row)).board,
    technician: named(names.technicians, at(columns.technician, row)),
    outcome: named(OUTCOMES, at(columns.outcome, row)),
    finding: findingOf(at(columns.finding, row)),
    tried: findingOf(at(columns.tried, row)),
    failed: at(columns.failed, row),
    backAt: backAt === 0 ? null : backAt,
    toFinding: time(at(columns.toFinding, row)),
    toProof: time(at(columns.toProof, row)),
    atBench: at(columns.atBench, row),
    tests: at(columns.tests, row),
    parts: at(columns.parts, row),
    advised: at(columns.advised, row),
    answers: way === 0 ? [] : named(ways, way).answers,
    shown: [...columns.shown.subarray(row * SHOWN, row * SHOWN + at(columns.listed, row))],
    confirmed: confirmed === NOT_SHOWN ? null : confirmed,
  };
}

function at(column: ArrayLike<number>, row: number): number {
  return column[row] ?? 0;
}

function time(milliseconds: number): number | null {
  return milliseconds === NO_TIME ? null : milliseconds;
}

function named<T>(names: readonly (T | undefined)[], code: number): T {
  const name = names[code];
  if (name === undefined) throw new Error(`fact-nameless: nothing is called ${String(code)}`);
  return name;
}
