import type { Tree } from '../document/index.ts';

/** All of a tree that the sorting of counts depends on, as text: where two trees agree in it, no count of theirs differs. */
export function sortingOf(tree: Tree): string {
  return JSON.stringify([testsOf(tree.tests), Object.keys(tree.findings), Object.keys(tree.symptoms)]);
}

/** Tests are the same record for as long as none of them is edited, and are gone through once till then. */
function testsOf(tests: Tree['tests']): string {
  const known = texts.get(tests);
  if (known !== undefined) return known;
  const text = JSON.stringify(
    Object.entries(tests).map(([id, { results }]) => [
      id,
      Object.entries(results).map(([result, { band }]) => [result, band ?? null]),
    ]),
  );
  texts.set(tests, text);
  return text;
}

const texts = new WeakMap<Tree['tests'], string>();
