import type { Standing } from '../../../trees/chart/index.ts';
import type { Change, Tree } from '../../../trees/document/index.ts';

/** A guarded axis of the bench that does not stand as it did at the start, and the changeover straight back. */
export interface Away {
  readonly axis: string;
  readonly state: string;
  readonly start: string;
  readonly back: Change | undefined;
}

/**
 * Where the bench has moved away from its start on an axis that an interlock guards: power, or what is as dangerous. In
 * the document's order.
 */
export function awayFromStart(tree: Tree, { bench }: Pick<Standing, 'bench'>): readonly Away[] {
  return Object.entries(tree.bench).flatMap(([axis, { start, changes }]) => {
    const state = bench[axis];
    const guarded = tree.interlocks.some(({ change }) => change[axis] !== undefined);
    if (!guarded || state === undefined || state === start) return [];
    const back = changes.find(({ from, to }) => from === state && to === start);
    return [{ axis, state, start, back }];
  });
}
