import {
  blankColumns,
  columnsOf,
  packColumns,
  rowAt,
  unpackColumns,
  withoutRow,
  withRow,
  type FactColumns,
  type FactRow,
} from '../../trees/review/index.ts';
import type { Database } from './database.ts';
import { PLACES } from './jobs.ts';

interface BlockRow {
  readonly rows: number;
  readonly columns: Buffer;
}

interface Held {
  readonly columns: FactColumns;
  /** Not written yet. */
  readonly isNew: boolean;
}

/** Blocks that are held at most before they are written, where many facts are made at once. */
const MOST_HELD = 64;

const DAY = 86_400_000;

/** The day on which the job of a place was opened, in days since 1970 UTC. */
export function dayOf(place: number): number {
  return Math.floor(place / PLACES / DAY);
}

export type FactBlocks = ReturnType<typeof openFactBlocks>;

/** The facts by day of opening. Each write gives its block the next version. The callers hold the transaction. */
export function openFactBlocks(db: Database) {
  const blockOf = db.prepare<[number], BlockRow>('SELECT rows, columns FROM fact_block WHERE day = ?');
  const nextVersion = db
    .prepare<[], number>('UPDATE fact_state SET version = version + 1 RETURNING version')
    .pluck();
  const setBlock = db.prepare<[number, number, number, Uint8Array]>(
    `INSERT INTO fact_block (day, version, rows, columns) VALUES (?, ?, ?, ?)
     ON CONFLICT (day) DO UPDATE SET version = excluded.version, rows = excluded.rows, columns = excluded.columns`,
  );
  let held: Map<number, Held> | null = null;

  const read = (day: number): FactColumns => {
    const known = held?.get(day);
    if (known !== undefined) return known.columns;
    const row = blockOf.get(day);
    const columns = row === undefined ? blankColumns(0) : unpackColumns(row.rows, row.columns);
    hold(day, { columns, isNew: false });
    return columns;
  };
  const write = (day: number, columns: FactColumns): void => {
    if (held === null) store(day, columns);
    else hold(day, { columns, isNew: true });
  };
  const hold = (day: number, block: Held): void => {
    if (held === null) return;
    if (held.size > MOST_HELD && !held.has(day)) storeHeld();
    held.set(day, block);
  };
  const storeHeld = (): void => {
    for (const [day, { columns, isNew }] of held ?? []) if (isNew) store(day, columns);
    held?.clear();
  };
  const store = (day: number, columns: FactColumns): void =>
    void setBlock.run(day, nextVersion.get() ?? 0, columns.rows, packColumns(columns));

  return {
    /** Adds a row, or puts it in the stead of the one of its place. */
    put(row: FactRow): void {
      const day = dayOf(row.place);
      write(day, withRow(read(day), row));
    },
    /** Adds many rows that come after all there are, ascending by place; each day's block is written once. */
    putMany(rows: readonly FactRow[]): void {
      for (const [day, added] of Map.groupBy(rows, ({ place }) => dayOf(place))) {
        const block = read(day);
        write(day, block.rows === 0 ? columnsOf(added) : added.reduce(withRow, block));
      }
    },
    /** Takes the row of a place out, if there is one. */
    drop(place: number): void {
      const [day, block] = [dayOf(place), read(dayOf(place))];
      const left = withoutRow(block, place);
      if (left !== block) write(day, left);
    },
    /** Has a row written to where it stands, if there is one of that place; `change` says whether it changed anything. */
    edit(place: number, change: (columns: FactColumns, at: number) => boolean): void {
      const [day, block] = [dayOf(place), read(dayOf(place))];
      const at = rowAt(block, place);
      if (at >= 0 && change(block, at)) write(day, block);
    },
    /** Writes a block once where `work` puts many rows into it. Where it throws, nothing of it is left: neither must be in the database. */
    together<T>(work: () => T): T {
      if (held !== null) return work();
      held = new Map();
      try {
        const made = work();
        storeHeld();
        return made;
      } finally {
        held = null;
      }
    },
  };
}
