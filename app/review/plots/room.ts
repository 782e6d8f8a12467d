/** What a plot has to draw in, in CSS pixels: its column's width, and the size of its type, which is never scaled. */
export interface Room {
  readonly width: number;
  readonly em: number;
}

/** A rectangle, in CSS pixels from the drawing's upper left corner. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A mark on an axis; without words where they would run into their neighbours'. */
export interface Tick {
  readonly at: number;
  readonly words: string | null;
}

/** From one line of type to the next. */
export function lineOf({ em }: Room): number {
  return Math.round(em * 1.5);
}

/** From the middle of a line of type down to its baseline. */
export function dropOf({ em }: Room): number {
  return em * 0.35;
}
