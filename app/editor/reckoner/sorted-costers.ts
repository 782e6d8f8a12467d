import { sortingOf, type History } from '../../../trees/belief/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { openCoster, type Coster } from './coster.ts';
import type { ShopFigures, SortedHistory } from './protocol.ts';

/** How many sortings are held at a time: those of the last edits are asked for again, by undo and redo. */
const MOST = 8;

/** Histories by the sorting they are in; the first stays, the others go in the order they came in. */
export function heldSortings(first: readonly SortedHistory[]): {
  readonly of: (sorting: string) => History | undefined;
  readonly add: (sorted: SortedHistory) => void;
} {
  const held = new Map(first.map(({ sorting, history }) => [sorting, history]));
  return {
    of: (sorting) => held.get(sorting),
    add({ sorting, history }) {
      held.set(sorting, history);
      const second = [...held.keys()][1];
      if (held.size > MOST && second !== undefined) held.delete(second);
    },
  };
}

export type Sortings = ReturnType<typeof heldSortings>;

/** Gives the coster of one tree after another, by the history as that tree sorts it; null where that is not there. */
export type CosterOf = (tree: Tree) => Coster | null;

/** A coster stays, with all that it keeps, for as long as the history is the same. `sortings` null: all trees go by that of the figures. */
export function openCosters(figures: ShopFigures, sortings: Sortings | null): CosterOf {
  let last: { readonly history: History; readonly coster: Coster } | null = null;
  return (tree) => {
    const history = sortings === null ? figures.history : sortings.of(sortingOf(tree));
    if (history === undefined) return null;
    if (last?.history !== history) last = { history, coster: openCoster({ ...figures, history }) };
    return last.coster;
  };
}
