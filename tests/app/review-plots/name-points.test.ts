import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leadersCross, leaderTouches, type Leader } from '../../../app/review/plots/leader.ts';
import { namePoints, type Nameless, type NamePlace } from '../../../app/review/plots/name-points.ts';
import { boxAround, boxesTouch } from '../../../app/review/plots/place-labels.ts';
import type { Box } from '../../../app/review/plots/room.ts';

const ROOM = { width: 900, em: 13 };
const WITHIN = { left: 60, right: 830, top: 20, bottom: 270 };

/** Technicians' points: also several in one place, and all in a corner. */
function pointsIn(most: number, { left, right, top, bottom }: Box): fc.Arbitrary<readonly Nameless[]> {
  return fc.array(
    fc.record({
      x: fc.integer({ min: left, max: right }),
      y: fc.integer({ min: top, max: bottom }),
      width: fc.integer({ min: 20, max: 230 }),
      first: fc.boolean(),
    }),
    { minLength: 1, maxLength: most },
  );
}

const CORNERS = [
  WITHIN,
  { left: 500, right: 560, top: 100, bottom: 140 },
  { ...WITHIN, left: 800, top: 250 },
];
const crowds = (most: number) => fc.oneof(...CORNERS.map((corner) => pointsIn(most, corner)));

function distance({ left, right, top, bottom }: Box, { x, y }: Nameless): number {
  return Math.hypot(Math.max(left - x, x - right, 0), Math.max(top - y, y - bottom, 0));
}

/** The line that a name's letters stand along. */
function lettersOf(box: Box): Box {
  const middle = (box.top + box.bottom) / 2;
  return { ...box, top: middle, bottom: middle };
}

function named(points: readonly Nameless[]): readonly (NamePlace & { readonly point: Nameless })[] {
  return namePoints(points, WITHIN, ROOM).flatMap((place, index) => {
    const point = points[index];
    return place === null || point === undefined ? [] : [{ ...place, point }];
  });
}

test('up to twelve points are all named, also where several lie in one place', () => {
  fc.assert(
    fc.property(crowds(12), (points) => {
      expect(namePoints(points, WITHIN, ROOM).filter((place) => place === null)).toEqual([]);
    }),
  );
});

test('a name without a leader is nearer to its own point than to any other', () => {
  fc.assert(
    fc.property(crowds(40), (points) => {
      for (const { box, leader, point } of named(points))
        for (const other of points)
          if (leader === null && other !== point)
            for (const side of [box, lettersOf(box)])
              expect(distance(side, other)).toBeGreaterThan(distance(side, point));
    }),
  );
});

test('a leader runs from its own point to its own name, and over no other name', () => {
  fc.assert(
    fc.property(crowds(40), (points) => {
      const all = named(points);
      for (const { box, leader, point } of all) {
        if (leader === null) continue;
        expect([leader.fromX, leader.fromY]).toEqual([point.x, point.y]);
        expect(distance(box, { ...point, x: leader.toX, y: leader.toY })).toBe(0);
        expect(all.some((other) => leaderTouches(leader, other.box))).toBe(false);
      }
    }),
  );
});

test('names touch neither each other nor a mark, and stay within', () => {
  fc.assert(
    fc.property(crowds(40), (points) => {
      const boxes = named(points).map(({ box }) => box);
      const marks = points.map(({ x, y }) => boxAround(x, y, 0.4 * ROOM.em));
      for (const [index, box] of boxes.entries()) {
        expect([...boxes.slice(index + 1), ...marks].some((other) => boxesTouch(box, other))).toBe(false);
        expect(
          Math.min(box.left - 60, box.top - 20, 830 - box.right, 270 - box.bottom),
        ).toBeGreaterThanOrEqual(0);
      }
    }),
  );
});

test('of many points in a crowd those that come first are named, the others only where they stand free', () => {
  const crowd = Array.from({ length: 30 }, (_, index) => ({
    x: 500 + (index % 6),
    y: 150 + (index % 5),
    width: 90,
    first: index % 10 === 0,
  }));
  const places = namePoints([...crowd, { x: 100, y: 60, width: 90, first: false }], WITHIN, ROOM);
  expect(places.flatMap((place, index) => (place === null ? [] : [index]))).toEqual([0, 10, 20, 30]);
  expect(places[0]?.leader).not.toBeNull();
  expect(places[30]?.leader).toBeNull();
});

test('a lone point is named to its right, without a leader', () => {
  const [place] = namePoints([{ x: 100, y: 100, width: 80, first: false }], WITHIN, ROOM);
  expect(place?.leader).toBeNull();
  expect(place?.box.left).toBeGreaterThan(100);
});

test('a leader touches the boxes it runs through, and not those it ends at or passes by', () => {
  const box = { left: 10, right: 20, top: 10, bottom: 20 };
  const leader = (fromX: number, fromY: number, toX: number, toY: number): Leader => ({
    fromX,
    fromY,
    toX,
    toY,
  });
  expect(leaderTouches(leader(0, 15, 30, 15), box)).toBe(true);
  expect(leaderTouches(leader(12, 12, 13, 13), box)).toBe(true);
  expect(leaderTouches(leader(0, 0, 30, 30), box)).toBe(true);
  expect(leaderTouches(leader(0, 15, 10, 15), box)).toBe(false);
  expect(leaderTouches(leader(15, 30, 15, 20), box)).toBe(false);
  expect(leaderTouches(leader(0, 25, 30, 25), box)).toBe(false);
  expect(leaderTouches(leader(0, 15, 15, 0), box)).toBe(false);
  expect(leadersCross(leader(0, 0, 10, 10), leader(0, 10, 10, 0))).toBe(true);
  expect(leadersCross(leader(0, 0, 10, 10), leader(20, 0, 12, 30))).toBe(false);
});
