import type { FaultModel } from '../belief/index.ts';
import { courseOf } from '../document/index.ts';
import type { Branch } from './figures.ts';
import type { Draw } from './gamma.ts';
import { meanChances } from './path-chances.ts';
import { flowed, pathFlow, send, sharesOf } from './path-flow.ts';
import { intervalsOf } from './path-intervals.ts';
import { pathStates } from './path-states.ts';

/** A branch of a tree's current revision before jobs are counted along it. */
export type TreeBranch = Pick<
  Branch,
  'tree' | 'symptom' | 'step' | 'test' | 'result' | 'authored' | 'now' | 'low' | 'high'
>;

/**
 * All branches of a tree's paths, step by step as its course numbers them, with how likely each is now of the units that come
 * to its step. `symptom` is the one whose path the step belongs to. Steps that no path leads to are left out.
 *
 * Units are sent down by the joint P(f, results so far) of the fault model's means, from each symptom as many as confirmed
 * jobs came with it, and one more; a test that is met again on a way keeps its first answer. At a step that is come to in one way
 * this is what `branchLikelihoods` says at the bench. `low` and `high` are the 5 % and 95 % points of the same under 400
 * draws of the posterior Dirichlets (strengths S + n(s) and K + n(t,f)) by `random`, uniform in [0, 1). They are null in a tree
 * for which they would take longer than about a second, or that has too many ways for tests to keep their answers.
 */
export function treeBranches(model: FaultModel, random: Draw): readonly TreeBranch[] {
  const { tree } = model;
  const course = courseOf(tree);
  const paths = pathStates(course);
  const flow = pathFlow(model, course, paths);
  const mean = meanChances(model, flow);
  const means = flowed(flow);
  send(flow, mean, means);
  const now = new Float64Array(flow.branches);
  sharesOf(flow, means, now);
  const intervals = paths.keepsAnswers ? intervalsOf(model, flow, mean, means, random) : null;
  return course.steps.flatMap(({ symptom, step, test, branches }, index) => {
    const base = flow.bases.get(index);
    const start = course.slots.get(test)?.start ?? 0;
    if (base === undefined) return [];
    return branches
      .filter(({ slot }) => slot >= 0)
      .map(({ result, slot, share }) => {
        const at = base + slot - start;
        const [low, high] = [intervals?.low[at] ?? null, intervals?.high[at] ?? null];
        return { tree: tree.id, symptom, step, test, result, authored: share, now: now[at] ?? 0, low, high };
      });
  });
}
