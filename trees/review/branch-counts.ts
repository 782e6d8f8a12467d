import { courseOf, own, type Tree } from '../document/index.ts';
import { binomialTest, holm } from '../statistics/index.ts';
import type { Way } from './fact.ts';
import type { Branch } from './figures.ts';
import { SIGNIFICANT } from './mix-change.ts';
import type { TreeBranch } from './tree-branches.ts';
import { walkWay } from './walk-way.ts';

/** A branch with its jobs, not yet corrected for the others. */
export type CountedBranch = Omit<Branch, 'corrected' | 'differs'>;

/**
 * Counts confirmed jobs along a tree's branches: those that came by each step and those that left by each branch, walked down
 * the current paths; and the chance of counts as far from what the author has one see there ({@link seenShare}), by the exact
 * binomial test (1 of no job).
 */
export function countBranches(
  tree: Tree,
  branches: readonly TreeBranch[],
  ways: readonly (Way | undefined)[],
  wayCounts: Uint32Array,
): readonly CountedBranch[] {
  const { steps } = courseOf(tree);
  const counts = steps.map((step) => new Uint32Array(step.branches.length));
  ways.forEach((way, code) => {
    const jobs = wayCounts[code] ?? 0;
    if (jobs === 0 || way?.tree !== tree.id) return;
    walkWay(tree, way, (at, place) => {
      const row = counts[at];
      if (row !== undefined) row[place] = (row[place] ?? 0) + jobs;
    });
  });
  const byStep = new Map(
    steps.map(({ symptom, step }, at) => [keyOf(symptom, step), { steps: steps[at], counts: counts[at] }]),
  );
  return branches.map((branch) => {
    const at = byStep.get(keyOf(branch.symptom, branch.step));
    const place = at?.steps?.branches.findIndex(({ result }) => result === branch.result) ?? -1;
    const passed = at?.counts?.reduce((sum, count) => sum + count, 0) ?? 0;
    const took = at?.counts?.[place] ?? 0;
    const chance = passed === 0 ? 1 : binomialTest(took, passed, seenShare(tree, branch));
    return { ...branch, passed, took, chance };
  });
}

/**
 * The share of the jobs at a step that are seen to leave by a branch where the author is right: the branch's share, and by the
 * reliability that the author gives the test g, as in the fault model, g a + (1 - g)/k. Without that a single wrong reading at a
 * branch which the author has nobody leave by would be called more than chance.
 */
export function seenShare(
  { tests, defaults }: Tree,
  { test, authored }: Pick<Branch, 'test' | 'authored'>,
): number {
  const made = own(tests, test);
  const reliability = made?.reliability ?? defaults.reliability;
  return reliability * authored + (1 - reliability) / Math.max(1, Object.keys(made?.results ?? {}).length);
}

/**
 * Says which branches differ from what their authors expect, corrected by Holm for all that a job came by; those first that
 * differ, by how unlikely that is, else as they come.
 */
export function judgeBranches(counted: readonly CountedBranch[]): readonly Branch[] {
  const tested = counted.filter(({ passed }) => passed > 0);
  const corrected = holm(tested.map(({ chance }) => chance));
  const after = new Map(tested.map((branch, place) => [branch, corrected[place] ?? 1]));
  return counted
    .map((branch) => {
      const chance = after.get(branch) ?? 1;
      return { ...branch, corrected: chance, differs: chance < SIGNIFICANT };
    })
    .sort((a, b) => Number(b.differs) - Number(a.differs) || a.chance - b.chance);
}

function keyOf(symptom: string, step: string): string {
  return `${symptom}/${step}`;
}
