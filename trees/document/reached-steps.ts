import { reachOfTree } from './check-use.ts';
import { courseOf } from './course.ts';
import { otherwiseOf } from './reach.ts';
import type { Tree } from './tree.ts';

/** The steps of a symptom's path that a job of any symptom can come to, as the checker has it that says where nothing leads. */
export function reachedSteps(tree: Tree, symptom: string): ReadonlySet<string> {
  const course = courseOf(tree);
  const { steps } = reachOfTree(tree, course, otherwiseOf(tree, course));
  return new Set(
    course.steps.flatMap((one, index) => (one.symptom === symptom && steps.has(index) ? [one.step] : [])),
  );
}
