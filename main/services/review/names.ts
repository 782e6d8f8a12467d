import type { ReviewNames } from '../../contract/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import type { KnownTree } from './known-trees.ts';

/** Titles for all ids that a review may hold. */
export function namesOf(trees: readonly KnownTree[], technicians: ReadonlyMap<string, string>): ReviewNames {
  const named = <T>(entriesOf: (known: KnownTree) => readonly (readonly [string, T])[]) =>
    Object.fromEntries(trees.flatMap(entriesOf));
  const titled = (entriesOf: (tree: Tree) => Readonly<Record<string, { readonly title: string }>>) =>
    named(({ tree }) =>
      Object.entries(entriesOf(tree)).map(([id, { title }]) => [`${tree.id}/${id}`, title] as const),
    );
  return {
    trees: named(({ tree }) => [[tree.id, tree.title]]),
    symptoms: titled(({ symptoms }) => symptoms),
    findings: titled(({ findings }) => findings),
    tests: titled(({ tests }) => tests),
    results: named(({ tree }) => resultsOf(tree)),
    technicians: Object.fromEntries(technicians),
    revisions: named(({ tree, revisionId }) => [[tree.id, revisionId]]),
  };
}

function resultsOf(tree: Tree): readonly (readonly [string, string])[] {
  return Object.entries(tree.tests).flatMap(([test, { results }]) =>
    Object.entries(results).map(([result, { title }]) => [`${tree.id}/${test}/${result}`, title] as const),
  );
}
