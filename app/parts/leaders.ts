import type { Picture } from '../../trees/document/index.ts';

/** A point to probe on a drawing 100 wide, with the line that leads from it to its label. */
export interface Leader {
  readonly number: number;
  readonly label: string;
  readonly x: number;
  readonly y: number;
  readonly endX: number;
  readonly endY: number;
  readonly anchor: 'start' | 'end';
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** In hundredths of the drawing's width: a label's height, a character's width, a ring's reach. */
const LINE = 5;
const CHARACTER = 2.5;
const RING = 3;
const REACHES = [7, 12, 18, 26] as const;
const SLOPES = [-0.6, 0.6, 0, -1.4, 1.4] as const;

/**
 * Leaders from each point to where its label has room: on the drawing, off the other points' rings and the labels placed
 * before it, as near as can be and outward first. Where nothing is free the nearest place is taken. `ratio` is the
 * drawing's height by its width.
 */
export function leadersOf(points: Picture['points'], ratio: number): readonly Leader[] {
  const height = 100 * ratio;
  const rings = points.map(({ x, y }) => around(x * 100, y * height));
  const taken: Box[] = [];
  return points.map(({ x, y, label }, index) => {
    const point = { number: index + 1, label, x: x * 100, y: y * height };
    const others = rings.filter((_, at) => at !== index);
    const [nearest, ...further] = places(point);
    const free = [nearest, ...further].find((place) => {
      const box = boxOf(place);
      return inside(box, height) && ![...others, ...taken].some((one) => overlap(one, box));
    });
    const placed = free ?? nearest;
    taken.push(boxOf(placed));
    return placed;
  });
}

type Point = Pick<Leader, 'number' | 'label' | 'x' | 'y'>;

function places(point: Point): [Leader, ...Leader[]] {
  const outward = point.x < 50 ? -1 : 1;
  const all = REACHES.flatMap((reach) =>
    [outward, -outward].flatMap((side) => SLOPES.map((slope) => place(point, side, reach, slope))),
  );
  return [place(point, outward, REACHES[0], SLOPES[0]), ...all];
}

function place(point: Point, side: number, reach: number, slope: number): Leader {
  const anchor = side < 0 ? 'end' : 'start';
  return { ...point, endX: point.x + side * reach, endY: point.y + slope * reach, anchor };
}

function boxOf({ number, label, endX, endY, anchor }: Leader): Box {
  const width = CHARACTER * `${String(number)} ${label}`.length + 1;
  const left = anchor === 'start' ? endX : endX - width;
  return { left, right: left + width, top: endY - LINE / 2, bottom: endY + LINE / 2 };
}

function around(x: number, y: number): Box {
  return { left: x - RING, right: x + RING, top: y - RING, bottom: y + RING };
}

function inside({ left, right, top, bottom }: Box, height: number): boolean {
  return left >= 0 && right <= 100 && top >= 0 && bottom <= height;
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
