import { own, type Axis, type Change, type Needs, type Tree } from '../document/index.ts';
import { barring, isHopeless, watches } from './interlock.ts';
import type { Situation } from './situation.ts';

/** The changeovers that bring one axis to a wanted state. */
export interface Chain {
  readonly axis: string;
  readonly changes: readonly Change[];
}

/** Whether the bench stands as wanted. */
export function isMet(needs: Needs, { bench }: Pick<Situation, 'bench'>): boolean {
  return Object.entries(needs).every(([axis, state]) => bench[axis] === state);
}

/**
 * For each axis that does not stand as wanted, the chain of changeovers with the fewest minutes, in the order they should
 * be made: first out of states that an interlock watches (power off), then those no interlock watches, last those into
 * watched states (power on); in the tree's order among equals. A state that is barred for good is gone round where there
 * is another way. Null where some axis cannot be brought to the wanted state.
 */
export function chainsTo(tree: Tree, at: Situation, needs: Needs): readonly Chain[] | null {
  const chains: Chain[] = [];
  for (const [axis, { changes }] of Object.entries(tree.bench)) {
    const from = at.bench[axis];
    const to = own(needs, axis);
    if (from === undefined || to === undefined || from === to) continue;
    const usable = changes.filter((change) => !isBarredForGood(tree, at, axis, change.to));
    const way = shortest(usable, from, to) ?? shortest(changes, from, to);
    if (way === null) return null;
    chains.push({ axis, changes: way });
  }
  return chains.sort((a, b) => rank(tree, at, a) - rank(tree, at, b));
}

/** Whether any changeover of a chain is into a state that an interlock watches. */
export function isWatched(tree: Tree, { axis, changes }: Chain): boolean {
  return changes.some(({ to }) => isWatchedState(tree, axis, to));
}

/**
 * The changeovers with the fewest minutes in all from one state to another (Dijkstra 1959); among equals the one with the
 * earlier listed changeovers. Null where there is no way.
 */
export function shortest(changes: Axis['changes'], from: string, to: string): readonly Change[] | null {
  const reached = new Map<string, { readonly minutes: number; readonly by: readonly Change[] }>();
  const open = new Map([[from, { minutes: 0, by: [] as readonly Change[] }]]);
  while (open.size > 0) {
    const [state, here] = [...open].reduce((best, one) => (one[1].minutes < best[1].minutes ? one : best));
    open.delete(state);
    reached.set(state, here);
    if (state === to) return here.by;
    for (const change of changes) {
      if (change.from !== state || reached.has(change.to)) continue;
      const minutes = here.minutes + change.minutes;
      if (minutes < (open.get(change.to)?.minutes ?? Infinity)) {
        open.set(change.to, { minutes, by: [...here.by, change] });
      }
    }
  }
  return null;
}

function rank(tree: Tree, { bench }: Situation, chain: Chain): number {
  if (isWatched(tree, chain)) return 2;
  return isWatchedState(tree, chain.axis, bench[chain.axis] ?? '') ? 0 : 1;
}

function isWatchedState(tree: Tree, axis: string, state: string): boolean {
  return tree.interlocks.some((interlock) => watches(interlock, axis, state));
}

function isBarredForGood(tree: Tree, { job }: Situation, axis: string, state: string): boolean {
  const index = barring(tree, job, axis, state);
  const interlock = index === undefined ? undefined : tree.interlocks[index];
  return interlock !== undefined && isHopeless(interlock, job);
}
