import type { Box, Placed, Point } from './placed.ts';
import { bendOf } from './way-path.ts';

/** The box that a point of the drawing is in, if it is in one. */
export function boxAt(placed: Placed, { x, y }: Point): string | undefined {
  for (const [id, box] of placed.boxes)
    if (x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height) return id;
  return undefined;
}

/** The line nearest to a point of the drawing, if one comes as near as `within`. */
export function lineAt(placed: Placed, point: Point, within: number): string | undefined {
  let nearest: string | undefined;
  let least = within;
  for (const [id, way] of placed.ways) {
    for (let index = 1; index < way.length; index += 1) {
      const [from, to] = [way[index - 1], way[index]];
      if (from === undefined || to === undefined || !near(from, to, point, within)) continue;
      const distance = distanceTo(from, to, point);
      if (distance <= least) [least, nearest] = [distance, id];
    }
  }
  return nearest;
}

/** The smallest box around a line, the room its bends take included. */
export function boxAround(way: readonly Point[]): Box {
  const xs = way.map(({ x }) => x);
  const ys = way.map(({ y }) => y);
  const upward = way.some(({ y }, index) => y < (way[index - 1]?.y ?? y));
  const room = upward ? 90 : 0;
  const [left, top] = [Math.min(...xs), Math.min(...ys) - room];
  return {
    x: left,
    y: top,
    width: Math.max(1, Math.max(...xs) - left),
    height: Math.max(...ys) + room - top,
  };
}

function near(from: Point, to: Point, { x, y }: Point, within: number): boolean {
  const room = within + (to.y > from.y ? 0 : 90);
  return (
    x >= Math.min(from.x, to.x) - within &&
    x <= Math.max(from.x, to.x) + within &&
    y >= Math.min(from.y, to.y) - room &&
    y <= Math.max(from.y, to.y) + room
  );
}

const PIECES = 16;

/** Distance to the bent piece from one point to the next, taken as a chain of straight ones. */
function distanceTo(from: Point, to: Point, point: Point): number {
  const bend = bendOf(from.y, to.y);
  let least = Infinity;
  let before = from;
  for (let piece = 1; piece <= PIECES; piece += 1) {
    const here = onBend(from, to, bend, piece / PIECES);
    least = Math.min(least, distanceToStraight(before, here, point));
    before = here;
  }
  return least;
}

function onBend(from: Point, to: Point, bend: number, t: number): Point {
  const [a, b, c, d] = [(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t ** 3];
  return {
    x: (a + b) * from.x + (c + d) * to.x,
    y: a * from.y + b * (from.y + bend) + c * (to.y - bend) + d * to.y,
  };
}

function distanceToStraight(from: Point, to: Point, { x, y }: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = dx * dx + dy * dy;
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - from.x) * dx + (y - from.y) * dy) / length));
  return Math.hypot(x - from.x - t * dx, y - from.y - t * dy);
}
