import type { Standing } from '../../../trees/chart/index.ts';
import type { Change, Tree } from '../../../trees/document/index.ts';

/** An axis of the bench that does not stand as it did at the start, and the changeover that leads straight back. */
export interface Away {
  readonly axis: string;
  readonly state: string;
  readonly start: string;
  readonly back: Change | undefined;
  /** An interlock guards one of its changeovers: it is power, or as dangerous. */
  readonly guarded: boolean;
}

/** Where the bench has moved away from its start, in the document's order. */
export function awayFromStart(tree: Tree, { bench }: Pick<Standing, 'bench'>): readonly Away[] {
  return Object.entries(tree.bench).flatMap(([axis, { start, changes }]) => {
    const state = bench[axis];
    if (state === undefined || state === start) return [];
    const back = changes.find(({ from, to }) => from === state && to === start);
    const guarded = tree.interlocks.some(({ change }) => change[axis] !== undefined);
    return [{ axis, state, start, back, guarded }];
  });
}
