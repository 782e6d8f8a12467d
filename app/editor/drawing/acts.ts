import type { DrawingDesk } from './drawing-desk.svelte.ts';

/** What can be done with what is chosen: by a key, by a button, or by a gesture, always through these. */

/** Chooses a spot and brings its box into sight. */
export function go(desk: DrawingDesk, id: string): void {
  desk.choice.choose(id);
  const box = desk.choice.spot?.node.id;
  if (box !== undefined) desk.scene.bring(box);
}

/** Ends leading where a new end is being chosen; else opens what is chosen: where a branch leads, another path, or the form. */
export function open(desk: DrawingDesk): void {
  const { choice, props } = desk;
  const spot = choice.spot;
  if (spot === undefined) return;
  if (choice.leading !== undefined) desk.lead(spot.node.id);
  else if (spot.kind === 'result' && !desk.readonly) add(desk);
  else if (spot.node.kind === 'start' && spot.node.first === undefined) add(desk);
  else if (spot.node.kind === 'elsewhere') props.onpath?.(spot.node.symptom, spot.node.step);
  else props.onopen?.(spot.kind === 'result' ? spot.result.at : spot.node.at);
}

/** Asks where the way out that is chosen is to lead (to something new, too), or for a first step at the start. */
export function add(desk: DrawingDesk): void {
  const spot = desk.choice.spot;
  if (desk.readonly || spot === undefined) return;
  if (spot.kind === 'result') desk.props.onadd?.(spot.node.step, spot.result.result);
  else if (spot.node.kind === 'start') desk.props.onadd?.(null, null);
}

/** Unlinks the branch that is chosen, or has the workspace delete the boxes that are. */
export function remove(desk: DrawingDesk): void {
  const { choice, props } = desk;
  if (desk.readonly || !choice.any) return;
  const spot = choice.spot;
  if (spot?.kind === 'result') {
    if (spot.result.go !== undefined) props.onunlink?.(spot.node.step, spot.result.result);
  } else tell(desk, props.ondelete);
}

export function copy(desk: DrawingDesk): void {
  const { choice, props } = desk;
  if (choice.pointers.length > 0) props.oncopy?.(choice.pointers);
}

export function cut(desk: DrawingDesk): void {
  tell(desk, desk.props.oncut);
}

export function duplicate(desk: DrawingDesk): void {
  tell(desk, desk.props.onduplicate);
}

export function paste(desk: DrawingDesk): void {
  if (!desk.readonly) desk.props.onpaste?.();
}

function tell(desk: DrawingDesk, what: ((pointers: readonly string[]) => void) | undefined): void {
  if (!desk.readonly && desk.choice.pointers.length > 0) what?.(desk.choice.pointers);
}
