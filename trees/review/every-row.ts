// Grown to the largest block that there has been; no block's rows are ever written over, as all are the same numbers.
let every = new Uint32Array();

/** 0, 1, 2 … up to so many rows, in memory that all who ask share. */
export function everyRow(rows: number): Uint32Array {
  if (every.length < rows) every = Uint32Array.from({ length: 2 * rows }, (_, row) => row);
  return every.subarray(0, rows);
}

let scratch = new Uint32Array();

/** Room for so many rows, good until it is next asked for. */
export function scratchOf(rows: number): Uint32Array {
  if (scratch.length < rows) scratch = new Uint32Array(2 * rows);
  return scratch;
}
