import type { Box } from './room.ts';

/** Chooses for each label, in order, the first of its places that lies within and touches nothing; null where there is none. */
export function placeLabels(
  wanted: readonly (readonly Box[])[],
  taken: readonly Box[],
  within: Box,
): readonly (Box | null)[] {
  const full = [...taken];
  return wanted.map((places) => {
    const place = places.find(
      (box) => isWithin(box, within) && !full.some((other) => boxesTouch(box, other)),
    );
    if (place !== undefined) full.push(place);
    return place ?? null;
  });
}

/** Whether two boxes share any of their area. */
export function boxesTouch(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** The square around a mark. */
export function boxAround(x: number, y: number, reach: number): Box {
  return { left: x - reach, right: x + reach, top: y - reach, bottom: y + reach };
}

/** Places of a label beside a mark: right, left, above, below, and at its corners. */
export function placesBeside(
  x: number,
  y: number,
  width: number,
  height: number,
  away: number,
): readonly Box[] {
  const row = { top: y - height / 2, bottom: y + height / 2 };
  const column = { left: x - width / 2, right: x + width / 2 };
  return [
    { ...row, left: x + away, right: x + away + width },
    { ...row, left: x - away - width, right: x - away },
    { ...column, top: y - away - height, bottom: y - away },
    { ...column, top: y + away, bottom: y + away + height },
    { left: x - width, right: x, top: y + away, bottom: y + away + height },
    { left: x, right: x + width, top: y + away, bottom: y + away + height },
    { left: x - width, right: x, top: y - away - height, bottom: y - away },
    { left: x, right: x + width, top: y - away - height, bottom: y - away },
  ];
}

/** Whether a box lies in another one. */
export function isWithin(box: Box, within: Box): boolean {
  return (
    box.left >= within.left &&
    box.right <= within.right &&
    box.top >= within.top &&
    box.bottom <= within.bottom
  );
}
