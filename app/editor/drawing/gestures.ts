import type { Attachment } from 'svelte/attachments';
import { keyOf, typingIn } from '../../parts/index.ts';
import { add, open } from './acts.ts';
import { chooseByBox } from './choose-by-box.ts';
import type { DrawingDesk } from './drawing-desk.svelte.ts';
import { pressed } from './keyboard.ts';
import type { Point } from './placed.ts';

/** Mouse and keyboard on the drawing: a click chooses, on the + of an open way out it adds there, Shift and drag chooses all within a box, a double click opens. */
export function gestures(desk: DrawingDesk): Attachment<HTMLElement> {
  return (root) => {
    const ending = new AbortController();
    const { signal } = ending;
    const inside: Inside = ({ clientX, clientY }) => {
      const { left, top } = root.getBoundingClientRect();
      return { x: clientX - left, y: clientY - top };
    };
    clickable(desk, root, inside, signal);
    root.addEventListener('keydown', (event) => keyed(desk, event), { signal });
    chooseByBox(desk, root, inside, signal);
    return () => ending.abort();
  };
}

/** Where the pointer is, from the pane's corner. */
export type Inside = (event: MouseEvent) => Point;

function clickable(desk: DrawingDesk, root: HTMLElement, inside: Inside, signal: AbortSignal): void {
  const spot = (event: MouseEvent): string | undefined => spotAt(desk, event, inside(event));
  const onclick = (event: MouseEvent): void => {
    if (!root.contains(document.activeElement)) root.focus({ preventScroll: true });
    if (desk.dropped) return;
    const leading = desk.choice.leading !== undefined;
    clicked(desk, event, spot(event));
    if (!leading && isOnAdds(event)) add(desk);
  };
  const ondblclick = (event: MouseEvent): void => {
    if (spot(event) !== undefined) open(desk);
  };
  const onpointermove = (event: PointerEvent): void => {
    if (event.buttons !== 0 || event.pointerType !== 'mouse') return;
    const id = spot(event);
    desk.pointed = id?.includes('/then/') === true ? id : undefined;
  };
  root.addEventListener('click', onclick, { signal });
  root.addEventListener('dblclick', ondblclick, { signal });
  root.addEventListener('pointermove', onpointermove, { signal });
}

/** The spot an event is on: the element's own, else what is painted there. */
function spotAt(desk: DrawingDesk, { target }: Event, { x, y }: Point): string | undefined {
  const element = target instanceof Element ? target.closest<HTMLElement>('[data-spot]') : null;
  return element?.dataset['spot'] ?? desk.at(x, y);
}

/** Whether a click is on the + of a way out. That lies under the handle which a branch is drawn from, so that one can be drawn there too. */
function isOnAdds({ target, clientX, clientY, shiftKey, ctrlKey, metaKey }: MouseEvent): boolean {
  if (shiftKey || ctrlKey || metaKey || !(target instanceof Element)) return false;
  const adds = target.closest('[data-spot]')?.parentElement?.querySelector(':scope [data-adds]');
  const box = adds?.getBoundingClientRect();
  if (box === undefined) return false;
  return clientX >= box.left && clientX <= box.right && clientY >= box.top && clientY <= box.bottom;
}

function clicked(desk: DrawingDesk, event: MouseEvent, id: string | undefined): void {
  const { choice } = desk;
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

function keyed(desk: DrawingDesk, event: KeyboardEvent): void {
  if (typingIn(event.target) || event.altKey || !pressed(desk, keyOf(event))) return;
  event.preventDefault();
  event.stopPropagation();
}
