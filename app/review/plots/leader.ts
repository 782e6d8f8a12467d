import type { Box } from './room.ts';

/** A line from a mark to its name, in CSS pixels. */
export interface Leader {
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
}

/** From a mark's middle to the side of a box that looks at it: the middle of a side, or straight up or down to it. */
export function leaderBetween(
  { x, y }: { readonly x: number; readonly y: number },
  { left, right, top, bottom }: Box,
): Leader {
  const from = { fromX: x, fromY: y };
  if (left > x) return { ...from, toX: left, toY: (top + bottom) / 2 };
  if (right < x) return { ...from, toX: right, toY: (top + bottom) / 2 };
  return { ...from, toX: x, toY: top > y ? top : bottom };
}

/** Whether a leader runs through the inside of a box (Liang and Barsky's clipping of a line by a box). */
export function leaderTouches({ fromX, fromY, toX, toY }: Leader, box: Box): boolean {
  let [enter, leave] = [0, 1];
  for (const [from, step, low, high] of [
    [fromX, toX - fromX, box.left, box.right],
    [fromY, toY - fromY, box.top, box.bottom],
  ] as const) {
    if (step === 0) {
      if (from <= low || from >= high) return false;
      continue;
    }
    const [a, b] = [(low - from) / step, (high - from) / step];
    enter = Math.max(enter, Math.min(a, b));
    leave = Math.min(leave, Math.max(a, b));
  }
  return enter < leave;
}

/** Whether two leaders cross or meet. */
export function leadersCross(a: Leader, b: Leader): boolean {
  return areApart(a, b) && areApart(b, a);
}

/** Whether the ends of `other` do not lie on the same side of the line through `one`. */
function areApart(one: Leader, other: Leader): boolean {
  const side = (x: number, y: number): number =>
    Math.sign((one.toX - one.fromX) * (y - one.fromY) - (one.toY - one.fromY) * (x - one.fromX));
  return side(other.fromX, other.fromY) * side(other.toX, other.toY) <= 0;
}
