import { own, type Tree } from '../../../../trees/document/index.ts';
import { titled } from '../../desk/part-words.ts';

/** An axis’ states to choose from. */
export function stateOptions(
  tree: Tree,
  axis: string,
): readonly { readonly value: string; readonly title: string }[] {
  return Object.entries(own(tree.bench, axis)?.states ?? {}).map(([value, { title }]) => ({
    value,
    title: titled(title),
  }));
}

/** A tree’s axes to choose from. */
export function axisOptions(tree: Tree): readonly { readonly value: string; readonly title: string }[] {
  return Object.entries(tree.bench).map(([value, { title }]) => ({ value, title: titled(title) }));
}
