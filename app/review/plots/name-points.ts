import { leaderBetween, leadersCross, leaderTouches, type Leader } from './leader.ts';
import { nameColumn } from './name-column.ts';
import { boxAround, boxesTouch, isWithin, placesBeside } from './place-labels.ts';
import { lineOf, type Box, type Room } from './room.ts';

/** A point that is to be named: its middle, and how wide its name is, in CSS pixels. */
export interface Nameless {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  /** Named before others. */
  readonly first: boolean;
}

/** Where a name stands; with a line to its point where it could be taken for another point's. */
export interface NamePlace {
  readonly box: Box;
  readonly leader: Leader | null;
}

/** From so many points on, those that are not first are named only where their name stands beside them. */
const ALL = 12;
/** Ems: half a mark; from a mark to its name. */
const MARK = 0.4;
const AWAY = 0.7;
/** How many times as far as its own point every other one is from a name without a leader. */
const FARTHER = 1.5;

/**
 * Ways of naming, the first that names all is taken: where names close about a crowd of points, those left over have no way to it,
 * so that names with leaders then stand farther out, at last all of them.
 */
const WAYS: readonly Way[] = [
  { beside: true, clear: 1.5 },
  { beside: true, clear: 2.5 },
  { beside: true, clear: 0.5 },
  { beside: false, clear: 2 },
  { beside: false, clear: 5 },
];

interface Way {
  /** Whether names stand beside their points where they can. */
  readonly beside: boolean;
  /** Ems that names with a leader keep from marks; where that is little, they might be taken for the nearest one's. */
  readonly clear: number;
}

/** What is drawn so far, in the points' order. */
interface Drawn {
  readonly points: readonly Nameless[];
  readonly places: (NamePlace | null)[];
  readonly within: Box;
  readonly room: Room;
}

/**
 * Names points: beside them where the name then is by far the nearest to its own; else somewhere free with a leader. Null is
 * where there is no room, or, of many points, too little to name those that are not first.
 */
export function namePoints(
  points: readonly Nameless[],
  within: Box,
  room: Room,
): readonly (NamePlace | null)[] {
  const all: (readonly (NamePlace | null)[])[] = [];
  for (const way of points.length <= ALL ? WAYS : WAYS.slice(0, 1)) {
    const drawn: Drawn = { points, places: points.map(() => null), within, room };
    nameOneWay(drawn, way);
    if (drawn.places.every((place) => place !== null)) return drawn.places;
    all.push(drawn.places);
  }
  const column = points.length <= ALL ? nameColumn(points, within, room) : null;
  if (column !== null) return column;
  const named = (places: readonly (NamePlace | null)[]) => places.filter((place) => place !== null).length;
  return all.toSorted((a, b) => named(b) - named(a))[0] ?? [];
}

function nameOneWay(drawn: Drawn, { beside, clear }: Way): void {
  const { points, places } = drawn;
  const isFirst = (index: number): boolean => points[index]?.first === true;
  const order = [...points.keys()].sort((a, b) => Number(isFirst(b)) - Number(isFirst(a)));
  if (beside) for (const index of order) places[index] = placeBeside(drawn, index);
  const left = order.filter((index) => places[index] === null);
  const led = points.length <= ALL ? left : left.filter(isFirst).slice(0, ALL);
  for (const index of led) places[index] = placeWithLeader(drawn, index, clear);
}

function placeBeside(drawn: Drawn, index: number): NamePlace | null {
  const { points, room } = drawn;
  const point = points[index];
  if (point === undefined) return null;
  const { x, y, width } = point;
  const box = placesBeside(x, y, width, lineOf(room), AWAY * room.em).find(
    (place) =>
      isFree(drawn, place, 0) && points.every((other, at) => at === index || isFarther(place, other, point)),
  );
  return box === undefined ? null : { box, leader: null };
}

/** The nearest free place whose leader runs over nothing; else over marks and leaders, but no name. */
function placeWithLeader(drawn: Drawn, index: number, clear: number): NamePlace | null {
  const point = drawn.points[index];
  if (point === undefined) return null;
  const places = freePlaces(drawn, point, clear);
  const overNothing = places.find(({ leader }) => isClear(drawn, leader, index));
  return overNothing ?? places.find(({ leader }) => !runsOverNames(drawn, leader)) ?? null;
}

/** Free places all over the drawing, those with the shortest leader first. */
function freePlaces(
  drawn: Drawn,
  point: Nameless,
  clear: number,
): readonly (NamePlace & { readonly leader: Leader })[] {
  const { within, room } = drawn;
  const height = lineOf(room);
  const places: (NamePlace & { readonly leader: Leader; readonly long: number })[] = [];
  for (let top = within.top; top + height <= within.bottom; top += height / 2)
    for (let left = within.left; left + point.width <= within.right; left += room.em) {
      const box = { left, right: left + point.width, top, bottom: top + height };
      if (!isFree(drawn, box, clear * room.em)) continue;
      const leader = leaderBetween(point, box);
      places.push({ box, leader, long: Math.hypot(leader.toX - point.x, leader.toY - point.y) });
    }
  return places.sort((a, b) => a.long - b.long);
}

/** Whether a box lies within and touches no mark, name or leader. */
function isFree({ points, places, within, room }: Drawn, box: Box, clear: number): boolean {
  return (
    isWithin(box, within) &&
    points.every(({ x, y }) => !boxesTouch(box, boxAround(x, y, MARK * room.em + clear))) &&
    places.every(
      (place) =>
        place === null ||
        (!boxesTouch(box, place.box) && (place.leader === null || !leaderTouches(place.leader, box))),
    )
  );
}

/** Whether a leader runs over no other point's mark, no name and no other leader. */
function isClear(drawn: Drawn, leader: Leader, index: number): boolean {
  const { points, places, room } = drawn;
  return (
    !runsOverNames(drawn, leader) &&
    points.every(({ x, y }, at) => at === index || !leaderTouches(leader, boxAround(x, y, MARK * room.em))) &&
    places.every((place) => place === null || place.leader === null || !leadersCross(leader, place.leader))
  );
}

function runsOverNames({ places }: Drawn, leader: Leader): boolean {
  return places.some((place) => place !== null && leaderTouches(leader, place.box));
}

/** Whether a name is by far farther from `other` than from `own`: its box, and its letters in the middle of that. */
function isFarther(box: Box, other: Nameless, own: Nameless): boolean {
  const middle = (box.top + box.bottom) / 2;
  const letters = { ...box, top: middle, bottom: middle };
  return (
    distanceTo(letters, other) > FARTHER * distanceTo(letters, own) &&
    distanceTo(box, other) > distanceTo(box, own)
  );
}

/** From a box to the middle of a point; 0 in it. */
function distanceTo({ left, right, top, bottom }: Box, { x, y }: Nameless): number {
  return Math.hypot(Math.max(left - x, x - right, 0), Math.max(top - y, y - bottom, 0));
}
