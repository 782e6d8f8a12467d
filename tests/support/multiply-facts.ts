import type { Database } from 'better-sqlite3';
import {
  blankColumns,
  packColumns,
  SHOWN,
  unpackColumns,
  type FactColumns,
} from '../../trees/review/index.ts';

/** Each fact so many times, at the places of its job's copies. A copy was opened, closed and brought back when its original was. */
export function multiplyFacts(db: Database, times: number): void {
  const blocks = db.prepare<[], { readonly day: number; readonly rows: number; readonly columns: Buffer }>(
    'SELECT day, rows, columns FROM fact_block',
  );
  const set = db.prepare<[number, Uint8Array, number]>(
    'UPDATE fact_block SET rows = ?, columns = ? WHERE day = ?',
  );
  for (const { day, rows, columns } of blocks.all()) {
    const repeated = repeatRows(unpackColumns(rows, columns), times);
    set.run(repeated.rows, packColumns(repeated), day);
  }
}

function repeatRows(block: FactColumns, times: number): FactColumns {
  const made = blankColumns(block.rows * times);
  for (const name of Object.keys(made) as (keyof FactColumns)[]) {
    if (name === 'rows') continue;
    const each = name === 'shown' ? SHOWN : 1;
    for (let row = 0; row < made.rows; row += 1) {
      const from = Math.floor(row / times) * each;
      made[name].set(block[name].subarray(from, from + each), row * each);
    }
  }
  for (let row = 0; row < made.rows; row += 1) made.place[row] = (made.place[row] ?? 0) + (row % times);
  return made;
}
