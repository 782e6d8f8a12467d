/** A stretch or label along the line, in any one unit. */
export interface Piece {
  readonly from: number;
  readonly to: number;
}

/** The lane of each piece, so that no two in one lane lie over each other; the lowest lane that is free is taken. */
export function lanesOf(pieces: readonly Piece[]): readonly number[] {
  const order = pieces.map((_, index) => index).toSorted((a, b) => fromOf(pieces, a) - fromOf(pieces, b));
  const reached: number[] = [];
  const lanes = pieces.map(() => 0);
  for (const index of order) {
    const piece = pieces[index];
    if (piece === undefined) continue;
    const free = reached.findIndex((to) => to <= piece.from);
    const lane = free < 0 ? reached.length : free;
    reached[lane] = piece.to;
    lanes[index] = lane;
  }
  return lanes;
}

/** Labels centred on places of a line, so moved that none reaches past its ends. */
export function labelsOn(
  places: readonly number[],
  widths: readonly number[],
  line: number,
): readonly Piece[] {
  return places.map((place, index) => {
    const width = Math.min(widths[index] ?? 0, line);
    const from = Math.min(Math.max(0, place * line - width / 2), line - width);
    return { from, to: from + width };
  });
}

function fromOf(pieces: readonly Piece[], index: number): number {
  return pieces[index]?.from ?? 0;
}
