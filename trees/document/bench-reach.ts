import { ENTRIES } from './problem.ts';
import type { Axis, Tree } from './tree.ts';

/** Whether a changeover of `axis` into `state` is barred. */
export type Barred = (axis: string, state: string) => boolean;

export const NOTHING_BARRED: Barred = () => false;

/** The states of one axis that its changeovers reach from `start`, which is one of them, none being barred on the way. */
export function statesFrom(axisId: string, axis: Axis, start: string, barred: Barred): ReadonlySet<string> {
  const reached = new Set([start]);
  for (const state of reached) {
    for (const { from, to } of axis.changes) {
      if (from === state && Object.hasOwn(axis.states, to) && !barred(axisId, to)) reached.add(to);
    }
  }
  return reached;
}

/** What says which states of an axis lead to which: places that problems with its ways rest on. */
export function waysOf(axisId: string): readonly (readonly PropertyKey[])[] {
  return [
    ['bench', axisId, 'changes', ENTRIES],
    ['bench', axisId, 'states', ENTRIES],
  ];
}

/** What bars when the given interlocks (by their place in the document) are closed. */
export function barredBy(tree: Tree, closed: Iterable<number>): Barred {
  const pairs = new Set<string>();
  for (const index of closed) {
    for (const [axis, state] of Object.entries(tree.interlocks[index]?.change ?? {}))
      pairs.add(`${axis}/${state}`);
  }
  return (axis, state) => pairs.has(`${axis}/${state}`);
}

/** One place in the document where a bench state is asked for. */
export interface Need {
  readonly axis: string;
  readonly state: string;
  readonly at: readonly PropertyKey[];
}

/** All bench states that tests and remedies ask for, as far as the document has them. */
export function needsOf(tree: Tree): readonly Need[] {
  const tests = Object.entries(tree.tests).map(([id, { needs }]) => ({ needs, at: ['tests', id, 'needs'] }));
  const remedies = Object.entries(tree.findings).map(([id, { remedy }]) => ({
    needs: remedy.needs,
    at: ['findings', id, 'remedy', 'needs'],
  }));
  return [...tests, ...remedies].flatMap(({ needs, at }) =>
    Object.entries(needs)
      .filter(
        ([axis, state]) =>
          Object.hasOwn(tree.bench, axis) && Object.hasOwn(tree.bench[axis]?.states ?? {}, state),
      )
      .map(([axis, state]) => ({ axis, state, at: [...at, axis] })),
  );
}
