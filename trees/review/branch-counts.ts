import { courseOf, own, type Tree } from '../document/index.ts';
import { binomialTest, holm } from '../statistics/index.ts';
import type { Way } from './fact.ts';
import type { Branch } from './figures.ts';
import { SIGNIFICANT } from './against-all.ts';
import type { TreeBranch } from './tree-branches.ts';
import { walksOf, type Walks } from './walk-way.ts';

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
  const walks = walksOf(tree, ways);
  const jobs = jobsAlong(walks, wayCounts);
  const byStep = new Map(steps.map(({ symptom, step }, at) => [keyOf(symptom, step), at]));
  return branches.map((branch) => {
    const at = byStep.get(keyOf(branch.symptom, branch.step)) ?? -1;
    const place = steps[at]?.branches.findIndex(({ result }) => result === branch.result) ?? -1;
    const ofStep = jobs.subarray(walks.firsts[at] ?? 0, walks.firsts[at + 1] ?? 0);
    const passed = ofStep.reduce((sum, count) => sum + count, 0);
    const took = ofStep[place] ?? 0;
    const chance = passed === 0 ? 1 : binomialTest(took, passed, seenShare(tree, branch));
    return { ...branch, passed, took, chance };
  });
}

/** By a branch's number, the jobs that went along it. */
function jobsAlong({ firsts, starts, gone }: Walks, wayCounts: Uint32Array): Uint32Array {
  const jobs = new Uint32Array(firsts.at(-1) ?? 0);
  for (let code = 0; code < wayCounts.length; code += 1) {
    const count = wayCounts[code] ?? 0;
    if (count === 0) continue;
    const end = starts[code + 1] ?? 0;
    for (let at = starts[code] ?? 0; at < end; at += 1) {
      const branch = gone[at] ?? 0;
      jobs[branch] = (jobs[branch] ?? 0) + count;
    }
  }
  return jobs;
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
