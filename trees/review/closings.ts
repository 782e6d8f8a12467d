import type { FactColumns } from './fact.ts';

/** The moments of the first and the last closing; of none Infinity and -Infinity. */
export interface Closings {
  readonly first: number;
  readonly last: number;
}

// A block that changes becomes another one.
const known = new WeakMap<FactColumns, Closings>();

/** When the first and the last of a block's jobs were closed, of all or of some of its rows. */
export function closingsOf(columns: FactColumns, rows: Uint32Array): Closings {
  if (rows.length < columns.rows) return among(columns.closedAt, rows);
  const had = known.get(columns) ?? among(columns.closedAt, rows);
  known.set(columns, had);
  return had;
}

function among(closedAt: Float64Array, rows: Uint32Array): Closings {
  let [first, last] = [Infinity, -Infinity];
  for (let at = 0; at < rows.length; at += 1) {
    const closed = closedAt[rows[at] ?? 0] ?? 0;
    if (closed < first) first = closed;
    if (closed > last) last = closed;
  }
  return { first, last };
}
