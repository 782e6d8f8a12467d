import type { DrawingDesk } from './drawing-desk.svelte.ts';
import type { Inside } from './gestures.ts';
import type { Box, Point } from './placed.ts';
import { overlap } from './view.ts';

/** How far, in pixels, the pointer has to be drawn for a box to be chosen by. */
const DRAWN = 5;

/** Shift and drag chooses all boxes within. The flow library would pan, so it does not get to see these. */
export function chooseByBox(desk: DrawingDesk, root: HTMLElement, inside: Inside, signal: AbortSignal): void {
  let from: Point | undefined;
  let drawn = false;
  const down = (event: PointerEvent): void => {
    drawn = false;
    if (!event.shiftKey || event.button !== 0) return;
    from = inside(event);
    event.stopPropagation();
  };
  const move = (event: PointerEvent): void => {
    if (from === undefined) return;
    const to = inside(event);
    if (Math.hypot(to.x - from.x, to.y - from.y) > DRAWN) drawn = true;
    if (drawn) desk.band = around(from, to);
  };
  const up = (): void => {
    const { band } = desk;
    from = undefined;
    desk.band = undefined;
    if (band !== undefined) desk.choice.chooseAll(boxesIn(desk, band));
  };
  const unseen = (event: Event): void => {
    if (from !== undefined) event.stopPropagation();
  };
  // The click that the browser makes of the drag is none.
  const click = (event: Event): void => {
    if (drawn) event.stopImmediatePropagation();
    drawn = false;
  };
  root.addEventListener('pointerdown', down, { signal, capture: true });
  root.addEventListener('mousedown', unseen, { signal, capture: true });
  root.addEventListener('click', click, { signal, capture: true });
  window.addEventListener('pointermove', move, { signal });
  window.addEventListener('pointerup', up, { signal, capture: true });
  window.addEventListener('pointercancel', up, { signal, capture: true });
}

function around(from: Point, to: Point): Box {
  return {
    x: Math.min(from.x, to.x),
    y: Math.min(from.y, to.y),
    width: Math.abs(to.x - from.x),
    height: Math.abs(to.y - from.y),
  };
}

function boxesIn({ scene }: DrawingDesk, band: Box): readonly string[] {
  const corner = scene.pointAt(band.x, band.y);
  const { zoom } = scene.viewport;
  const wanted = { ...corner, width: band.width / zoom, height: band.height / zoom };
  return [...scene.placed.boxes].flatMap(([id, box]) => (overlap(box, wanted) ? [id] : []));
}
