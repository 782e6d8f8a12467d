// Grown to the largest block that there has been; no block's rows are ever written over, as all are the same numbers.
let every = new Uint32Array();

/** 0, 1, 2 … up to so many rows, in memory that all who ask share. */
export function everyRow(rows: number): Uint32Array {
  if (every.length < rows) every = Uint32Array.from({ length: 2 * rows }, (_, row) => row);
  return every.subarray(0, rows);
}

/** Room for all rows of a question and for what is told beside them. */
export interface Room {
  readonly rows: Uint32Array;
  readonly flags: Uint8Array;
}

let room: Room = { rows: new Uint32Array(), flags: new Uint8Array() };

/** Room for so many rows, good until it is next asked for: no question leaves any behind. */
export function roomFor(rows: number): Room {
  if (room.flags.length < rows) {
    const grown = Math.ceil(1.1 * rows);
    room = { rows: new Uint32Array(grown), flags: new Uint8Array(grown) };
  }
  return room;
}
