import type { Tree } from '../document/index.ts';
import { countBranches, judgeBranches } from './branch-counts.ts';
import type { Facts } from './fact.ts';
import type { Review, SymptomMinutes } from './figures.ts';
import type { FactReview } from './review-of.ts';
import type { TreeBranch } from './tree-branches.ts';

/** What is known of a tree's current revision with the whole history; the same for every filter. */
export interface TreeFigures {
  readonly tree: Tree;
  readonly branches: readonly TreeBranch[];
  /** By symptom, as `expectedMinutes` has it; symptoms that are not in it are not known. */
  readonly expected: ReadonlyMap<string, SymptomMinutes['expected']>;
}

/** Adds to a review what it says of trees: of all that are given, which are those that its filter asks for. */
export function withTrees(
  { figures, wayCounts }: FactReview,
  { ways }: Facts,
  trees: readonly TreeFigures[],
): Review {
  const byId = new Map(trees.map((known) => [known.tree.id, known]));
  return {
    ...figures,
    minutes: figures.minutes.map((minutes) => ({
      ...minutes,
      expected: byId.get(minutes.tree)?.expected.get(minutes.symptom) ?? null,
    })),
    branches: judgeBranches(
      trees.flatMap(({ tree, branches }) => countBranches(tree, branches, ways, wayCounts)),
    ),
  };
}
