import type { Tree } from '../document/index.ts';
import type { JobEvent } from './event.ts';
import type { Situation } from './situation.ts';
import { updated } from './update.ts';
import { whereabouts } from './whereabouts.ts';

/**
 * The situation after an event that the chart takes: what {@link advance} comes to, worked out without the machine, for
 * arithmetic over many jobs, where an XState event each is too slow. It does not ask whether the chart takes the event, and
 * is not for `take-back`, which is the walk's, nor for where a test was turned to (see {@link whereabouts}).
 */
export function situationAfter(tree: Tree, { job, bench, passed }: Situation, event: JobEvent): Situation {
  const moved = event.kind === 'change' ? { ...bench, [event.axis]: event.to } : bench;
  const known = { job: updated(tree, job, event), bench: moved, passed };
  return { ...known, job: whereabouts(tree, known).job };
}
