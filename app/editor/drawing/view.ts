import type { Box, Placed, Point } from './placed.ts';

/** How the drawing is seen: `zoom` 1 is natural size; `x`, `y` are where its origin stands in the pane, in pixels. */
export interface Viewport extends Point {
  readonly zoom: number;
}

export interface Pane {
  readonly width: number;
  readonly height: number;
}

export const LEAST_ZOOM = 0.015;
export const MOST_ZOOM = 2;
/** A path too large to be read as a whole opens at its start at this size. */
const READABLE = 0.7;
const MARGIN = 32;

/** What of the drawing is in the pane, widened by `more` of its size on every side. */
export function seen({ x, y, zoom }: Viewport, { width, height }: Pane, more = 0): Box {
  const [wide, high] = [width / zoom, height / zoom];
  return {
    x: -x / zoom - wide * more,
    y: -y / zoom - high * more,
    width: wide * (1 + 2 * more),
    height: high * (1 + 2 * more),
  };
}

/** Whether two boxes have a place in common; side by side they have none. */
export function overlap(one: Box, other: Box): boolean {
  return (
    one.x < other.x + other.width &&
    other.x < one.x + one.width &&
    one.y < other.y + other.height &&
    other.y < one.y + one.height
  );
}

/** The whole of `bounds` in the pane, at natural size at most. */
export function fitted(bounds: Box, pane: Pane): Viewport {
  const zoom = clamp(
    Math.min(
      (pane.width - 2 * MARGIN) / Math.max(1, bounds.width),
      (pane.height - 2 * MARGIN) / Math.max(1, bounds.height),
    ),
    LEAST_ZOOM,
    1,
  );
  return {
    zoom,
    x: pane.width / 2 - (bounds.x + bounds.width / 2) * zoom,
    y: pane.height / 2 - (bounds.y + bounds.height / 2) * zoom,
  };
}

/** How a drawing is first seen: whole where it can be read so, else from its start on. */
export function opening(bounds: Box, start: Box | undefined, pane: Pane): Viewport {
  const whole = fitted(bounds, pane);
  if (whole.zoom >= READABLE || start === undefined) return whole;
  return {
    zoom: READABLE,
    x: pane.width / 2 - (start.x + start.width / 2) * READABLE,
    y: MARGIN - start.y * READABLE,
  };
}

/** The view moved as little as brings the box into the pane; the same view where it is there already. */
export function bringing(box: Box, viewport: Viewport, pane: Pane): Viewport {
  const { zoom } = viewport;
  const by = (start: number, size: number, at: number, room: number): number => {
    const [from, to] = [at + start * zoom, at + (start + size) * zoom];
    if (from < MARGIN) return MARGIN - from;
    return to > room - MARGIN ? Math.max(room - MARGIN - to, MARGIN - from) : 0;
  };
  const dx = by(box.x, box.width, viewport.x, pane.width);
  const dy = by(box.y, box.height, viewport.y, pane.height);
  return dx === 0 && dy === 0 ? viewport : { zoom, x: viewport.x + dx, y: viewport.y + dy };
}

/** The view zoomed by a factor about the middle of the pane. */
export function zoomed(viewport: Viewport, factor: number, pane: Pane): Viewport {
  const zoom = clamp(viewport.zoom * factor, LEAST_ZOOM, MOST_ZOOM);
  const by = zoom / viewport.zoom;
  const [midX, midY] = [pane.width / 2, pane.height / 2];
  return { zoom, x: midX - (midX - viewport.x) * by, y: midY - (midY - viewport.y) * by };
}

/** The view after a new placement in which the box `anchor` stands where it stood on the screen. */
export function holding(
  anchor: string | undefined,
  before: Placed,
  after: Placed,
  viewport: Viewport,
): Viewport {
  const from = anchor === undefined ? undefined : before.boxes.get(anchor);
  const to = anchor === undefined ? undefined : after.boxes.get(anchor);
  if (from === undefined || to === undefined) return viewport;
  const { zoom } = viewport;
  return { zoom, x: viewport.x + (from.x - to.x) * zoom, y: viewport.y + (from.y - to.y) * zoom };
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
