import type { Tree } from '../document/index.ts';
import { shortest } from './changeover.ts';
import { barring, isOpen, watches } from './interlock.ts';
import type { Situation } from './situation.ts';
import { wayToOpen, type Move } from './way.ts';

/**
 * The move that leaves a bench state which an interlock bars as things now stand (its answer was corrected or
 * contradicted, or a remedy has closed it): back towards the axis' start, else to the nearest state that is not barred.
 * Where no changeover leads out, the way to open the interlock. Null where nothing is wrong.
 */
export function safetyMove(tree: Tree, at: Situation): Move | null {
  const unsafe = unsafeState(tree, at);
  return unsafe === null ? null : (wayOut(tree, at, unsafe) ?? openInstead(tree, at, unsafe));
}

/** Whether the bench must first be changed over for safety's sake, and can be. */
export function mustLeave(tree: Tree, at: Situation): boolean {
  const unsafe = unsafeState(tree, at);
  return unsafe !== null && wayOut(tree, at, unsafe) !== null;
}

interface Unsafe {
  readonly axis: string;
  readonly state: string;
  readonly interlock: number;
}

function unsafeState(tree: Tree, { job, bench }: Situation): Unsafe | null {
  for (const [interlock, lock] of tree.interlocks.entries()) {
    const held = Object.entries(bench).find(([axis, state]) => watches(lock, axis, state));
    if (held !== undefined && !isOpen(lock, job)) return { axis: held[0], state: held[1], interlock };
  }
  return null;
}

function wayOut(tree: Tree, { job }: Situation, { axis, state, interlock }: Unsafe): Move | null {
  const { start, changes } = tree.bench[axis] ?? { start: state, changes: [] };
  const free = changes.filter(({ to }) => barring(tree, job, axis, to) === undefined);
  const out = free.filter(({ from }) => from === state).sort((a, b) => a.minutes - b.minutes);
  const change = shortest(free, state, start)?.[0] ?? out[0];
  return change === undefined
    ? null
    : { kind: 'change', axis, change, wanted: { kind: 'safety', interlock } };
}

function openInstead(tree: Tree, at: Situation, { interlock }: Unsafe): Move {
  return wayToOpen(tree, at, interlock, { kind: 'safety', interlock }).move;
}
