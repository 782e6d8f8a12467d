import { advance, standing, type JobEvent, type Walk } from '../../../trees/chart/index.ts';

/**
 * Whether an event has led back to the path, which the course had left with nowhere to go. A test turned to from the path
 * returns to it as a matter of course, and what is taken back is no news.
 */
export function isBackOnPath(before: Walk, event: JobEvent, after: Walk): boolean {
  return event.kind !== 'take-back' && isOnPath(after) && isAdrift(before);
}

function isOnPath(walk: Walk): boolean {
  const { step, act } = standing(walk);
  return step !== null || act.kind === 'finding';
}

/** Off the path, or at a test turned to from there. */
function isAdrift(walk: Walk): boolean {
  const { step, act, allows } = standing(walk);
  if (step !== null) return false;
  if (act.kind === 'adrift') return true;
  if (!allows.has('turn-back')) return false;
  const back = advance(walk, { kind: 'turn-back' });
  return back.ok && standing(back.walk).act.kind === 'adrift';
}
