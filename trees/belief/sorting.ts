import type { Tree } from '../document/index.ts';

/**
 * All of a tree that the sorting of counts depends on, as text: where two trees agree in it, no count of theirs differs. Tests are gone
 * through once for as long as none of them is edited.
 */
export function sortingOf(tree: Tree): string {
  const known = ofTrees.get(tree);
  if (known !== undefined) return known;
  const ids = [tree.findings, tree.symptoms].map((parts) => Object.keys(parts).join(' ')); // ids have no spaces
  const sorting = [...ids, testsOf(tree.tests)].join('\n');
  ofTrees.set(tree, sorting);
  return sorting;
}

function testsOf(tests: Tree['tests']): string {
  const known = ofTests.get(tests);
  if (known !== undefined) return known;
  const text = JSON.stringify(
    Object.entries(tests).map(([id, { results }]) => [
      id,
      Object.entries(results).map(([result, { band }]) => [result, band ?? null]),
    ]),
  );
  ofTests.set(tests, text);
  return text;
}

const ofTrees = new WeakMap<Tree, string>();
const ofTests = new WeakMap<Tree['tests'], string>();
