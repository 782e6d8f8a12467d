import { expectationOf, flows, own, type Flows, type Tree } from '../document/index.ts';

/** What a tree's authors expect of one test, by finding of the tree: shares by result; null where they say nothing. */
export type Expected = ReadonlyMap<string, Readonly<Record<string, number>> | null>;

/**
 * a(r|f,t) of one test for every finding of the tree: what `expects` says, else the share of the authors' flow; null where
 * neither says anything. A tree's flows are worked out once.
 */
export function expectedOf(tree: Tree, testId: string): Expected {
  const test = own(tree.tests, testId);
  if (test === undefined) return new Map();
  const results = Object.keys(test.results);
  const passing = flowsOf(tree).passing.get(testId);
  return new Map(
    Object.entries(tree.findings).map(([finding, authored]) => {
      const { known, shares } = expectationOf(testId, test, authored, passing?.get(finding));
      if (!known) return [finding, null];
      return [finding, Object.fromEntries(results.map((result, index) => [result, shares[index] ?? 0]))];
    }),
  );
}

/** The results that a finding makes likeliest, more than one where they are equally likely; none where nothing is said. */
export function likeliest(expected: Expected, finding: string): readonly string[] {
  const shares = Object.entries(expected.get(finding) ?? {});
  const most = Math.max(0, ...shares.map(([, share]) => share));
  return most === 0 ? [] : shares.filter(([, share]) => share === most).map(([result]) => result);
}

const known = new WeakMap<Tree, Flows>();

function flowsOf(tree: Tree): Flows {
  const had = known.get(tree);
  if (had !== undefined) return had;
  const made = flows(tree);
  known.set(tree, made);
  return made;
}
