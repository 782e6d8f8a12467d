import type { Point } from './placed.ts';

/** How far a line that has to lead upwards (on a loop, or in from apart) goes on before it turns. */
const TURN = 90;

/** A line through its points as the path data of an SVG: smooth, and upright at every point. */
export function wayPath(way: readonly Point[]): string {
  return way.map((point, index) => pieceTo(point, way[index - 1])).join('');
}

function pieceTo({ x, y }: Point, before: Point | undefined): string {
  if (before === undefined) return `M${round(x)} ${round(y)}`;
  const bend = bendOf(before.y, y);
  return `C${round(before.x)} ${round(before.y + bend)} ${round(x)} ${round(y - bend)} ${round(x)} ${round(y)}`;
}

/** How far below the one point and above the next a piece of a line is bent towards. */
export function bendOf(from: number, to: number): number {
  return to > from ? (to - from) / 2 : TURN;
}

const round = (length: number): string => String(Math.round(length * 10) / 10);
