import { leaderBetween } from './leader.ts';
import type { Nameless, NamePlace } from './name-points.ts';
import { lineOf, type Box, type Room } from './room.ts';
import { settleLabels } from './settle-labels.ts';

/** Ems from the outermost point to the column. */
const AWAY = 3;

/** Names points in one column beside all of them, from the top down, so that no leader has a name in its way; null where it does not fit. */
export function nameColumn(
  points: readonly Nameless[],
  within: Box,
  room: Room,
): readonly NamePlace[] | null {
  const line = lineOf(room);
  const widest = Math.max(...points.map(({ width }) => width));
  const right = Math.max(...points.map(({ x }) => x)) + AWAY * room.em;
  const left = Math.min(...points.map(({ x }) => x)) - AWAY * room.em;
  const isRight = right + widest <= within.right;
  if (!isRight && left - widest < within.left) return null;
  if (points.length * line > within.bottom - within.top) return null;
  const order = [...points.entries()].sort(([, a], [, b]) => a.y - b.y);
  const middles = settleLabels(
    order.map(([, { y }]) => ({ at: y, height: line })),
    within.top,
    within.bottom,
  );
  const places = order.map(([index, point], at) => {
    const middle = middles[at] ?? point.y;
    const side = isRight
      ? { left: right, right: right + point.width }
      : { left: left - point.width, right: left };
    const box = { ...side, top: middle - line / 2, bottom: middle + line / 2 };
    return { index, place: { box, leader: leaderBetween(point, box) } };
  });
  return places.toSorted((a, b) => a.index - b.index).map(({ place }) => place);
}
