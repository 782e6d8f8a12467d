import type { Size } from './size.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box extends Point, Size {}

/** A box to be placed, and a line between two of them; both given in the order in which they should be met. */
export interface Shape extends Size {
  readonly id: string;
}
export interface Line {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** How far from the left edge of `from` it leaves its foot; it arrives at the middle of the head of `to`. */
  readonly leavesAt: number;
}

/** Boxes and lines that are laid out together. Lines lead onward, but for those on a loop. */
export interface Shapes {
  readonly shapes: readonly Shape[];
  readonly lines: readonly Line[];
}

/** Where everything stands, in pixels at natural size: boxes by id, and the points each line goes through. */
export interface Placed {
  readonly boxes: ReadonlyMap<string, Box>;
  readonly ways: ReadonlyMap<string, readonly Point[]>;
  /** Around what the start does not come to, if there is such. */
  readonly apart?: Box;
}

/** The places of nothing. */
export const NOWHERE: Placed = { boxes: new Map(), ways: new Map() };

/** Room between boxes side by side and one above the other. */
export const ASIDE = 36;
export const BELOW = 72;

/** The smallest box around boxes; of no size where there are none. */
export function boundsOf(boxes: Iterable<Box>): Box {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y, width, height } of boxes) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x + width);
    bottom = Math.max(bottom, y + height);
  }
  if (left > right) return { x: 0, y: 0, width: 0, height: 0 };
  return { x: left, y: top, width: right - left, height: bottom - top };
}
