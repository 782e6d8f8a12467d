import type { Attachment } from 'svelte/attachments';
import { keyOf, typingIn } from '../../parts/index.ts';
import { open } from './acts.ts';
import type { DrawingDesk } from './drawing-desk.svelte.ts';
import { pressed } from './keyboard.ts';
import { overlap } from './view.ts';
import type { Box } from './placed.ts';

/** How far, in pixels, the pointer has to be drawn for a box to be chosen by. */
const DRAWN = 5;

/** Mouse and keyboard on the drawing: a click chooses, Shift and drag chooses all within a box, a double click opens. */
export function gestures(desk: DrawingDesk): Attachment<HTMLElement> {
  return (root) => {
    const ending = new AbortController();
    const { signal } = ending;
    const inside = ({ clientX, clientY }: MouseEvent): { x: number; y: number } => {
      const { left, top } = root.getBoundingClientRect();
      return { x: clientX - left, y: clientY - top };
    };
    root.addEventListener(
      'click',
      (event) => {
        if (!root.contains(document.activeElement)) root.focus({ preventScroll: true });
        clicked(desk, event, spotAt(desk, event, inside(event)));
      },
      { signal },
    );
    root.addEventListener(
      'dblclick',
      (event) => spotAt(desk, event, inside(event)) !== undefined && open(desk),
      {
        signal,
      },
    );
    root.addEventListener(
      'pointermove',
      (event) => {
        if (event.buttons === 0 && event.pointerType === 'mouse')
          desk.pointed = lineUnder(desk, event, inside(event));
      },
      { signal },
    );
    root.addEventListener(
      'keydown',
      (event) => {
        if (typingIn(event.target) || event.altKey) return;
        if (pressed(desk, keyOf(event))) {
          event.preventDefault();
          event.stopPropagation();
        }
      },
      { signal },
    );
    chooseByBox(desk, root, inside, signal);
    return () => ending.abort();
  };
}

/** The spot an event is on: the element's own, else what is painted there. */
function spotAt(
  desk: DrawingDesk,
  { target }: Event,
  { x, y }: { x: number; y: number },
): string | undefined {
  const element = target instanceof Element ? target.closest<HTMLElement>('[data-spot]') : null;
  return element?.dataset['spot'] ?? desk.at(x, y);
}

function lineUnder(desk: DrawingDesk, event: Event, at: { x: number; y: number }): string | undefined {
  const id = spotAt(desk, event, at);
  return id?.includes('/then/') === true ? id : undefined;
}

function clicked(desk: DrawingDesk, event: MouseEvent, id: string | undefined): void {
  const { choice } = desk;
  if (desk.dropped) return;
  if (id === undefined) {
    choice.clear();
    return;
  }
  if (choice.leading === undefined) {
    choice.choose(id, event.shiftKey || event.ctrlKey || event.metaKey);
    return;
  }
  choice.choose(id);
  const box = choice.spot?.node.id;
  if (box !== undefined) desk.lead(box);
}

/** Shift and drag. The flow library would pan, so it does not get to see these. */
function chooseByBox(
  desk: DrawingDesk,
  root: HTMLElement,
  inside: (event: MouseEvent) => { x: number; y: number },
  signal: AbortSignal,
): void {
  let from: { x: number; y: number } | undefined;
  let drawn = false;
  const stop = (event: Event): void => {
    if (from !== undefined) event.stopPropagation();
  };
  root.addEventListener(
    'pointerdown',
    (event) => {
      if (!event.shiftKey || event.button !== 0) return;
      from = inside(event);
      drawn = false;
      event.stopPropagation();
    },
    { signal, capture: true },
  );
  root.addEventListener('mousedown', stop, { signal, capture: true });
  window.addEventListener(
    'pointermove',
    (event) => {
      if (from === undefined) return;
      const to = inside(event);
      if (Math.hypot(to.x - from.x, to.y - from.y) > DRAWN) drawn = true;
      if (drawn) desk.band = around(from, to);
    },
    { signal },
  );
  window.addEventListener(
    'pointerup',
    () => {
      const { band } = desk;
      from = undefined;
      desk.band = undefined;
      if (band !== undefined) desk.choice.chooseAll(boxesIn(desk, band));
    },
    { signal, capture: true },
  );
  root.addEventListener(
    'click',
    (event) => {
      if (!drawn) return;
      drawn = false;
      event.stopImmediatePropagation();
    },
    { signal, capture: true },
  );
}

function around(from: { x: number; y: number }, to: { x: number; y: number }): Box {
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
