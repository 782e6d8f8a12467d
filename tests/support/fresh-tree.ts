import type { Tree } from '../../trees/document/index.ts';

/** The same tree with no part that was seen before; records without a prototype, as everywhere in a tree. */
export function freshTree(tree: Tree): Tree {
  return JSON.parse(JSON.stringify(tree), (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.assign(Object.create(null) as object, value)
      : value,
  ) as Tree;
}
