import type { Picture } from '../../../trees/document/index.ts';

type Points = Picture['points'];

/** A point's place as fractions of the picture's width and height. */
export interface PointPlace {
  readonly x: number;
  readonly y: number;
}

/** Moved by a key: a hundredth of the picture, or a tenth of that with Shift. */
export const STEP = 0.01;
export const SMALL_STEP = 0.001;

const ARROWS: Readonly<Record<string, PointPlace>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** Where an arrow key moves a point to; null for any other key. */
export function moved({ x, y }: PointPlace, key: string, small: boolean): PointPlace | null {
  const arrow = Object.hasOwn(ARROWS, key) ? ARROWS[key] : undefined;
  if (arrow === undefined) return null;
  const step = small ? SMALL_STEP : STEP;
  return within({ x: x + arrow.x * step, y: y + arrow.y * step });
}

/** A place on the picture: on it, and to a ten-thousandth, which is finer than a pixel. */
export function within({ x, y }: PointPlace): PointPlace {
  return { x: fraction(x), y: fraction(y) };
}

/** Where a pointer is on a picture that takes up `box` of the window. */
export function placeAt(
  { clientX, clientY }: { readonly clientX: number; readonly clientY: number },
  box: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
): PointPlace {
  return within({ x: (clientX - box.left) / box.width, y: (clientY - box.top) / box.height });
}

/** The points with one of them changed. */
export function changed(points: Points, index: number, change: Partial<Points[number]>): Points {
  return points.map((point, at) => (at === index ? { ...point, ...change } : point));
}

/** The points with one of them at another place of the list. */
export function reordered(points: Points, from: number, to: number): Points {
  const point = points[from];
  return point === undefined ? points : points.toSpliced(from, 1).toSpliced(to, 0, point);
}

function fraction(value: number): number {
  return Math.round(Math.min(Math.max(value, 0), 1) * 10_000) / 10_000;
}
