import type { Course } from './course.ts';
import type { Against } from './known-results.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

/**
 * Branches straight to a finding whose `expects` says that it never gives their result: the path and `expects` then say two
 * things of one finding. Where it is reached by that result no oftener than the test is wrong anyhow, by its reliability, it is what
 * is left to think after an odd result, and no contradiction.
 */
export function warnAgainstPath(
  tree: Tree,
  course: Course,
  finding: string,
  against: readonly Against[],
): readonly Problem[] {
  const slots = new Set(
    against
      .filter(({ test, share }) => share > 1 - (tree.tests[test]?.reliability ?? tree.defaults.reliability))
      .map(({ slot }) => slot),
  );
  if (slots.size === 0) return [];
  return course.steps.flatMap(({ symptom, step, test, branches }) =>
    branches
      .filter(({ slot, lead }) => slots.has(slot) && lead.kind === 'finding' && lead.finding === finding)
      .map(({ result }) => {
        const message = `This branch leads to ${quote(finding)}, of which “expects” says that it never gives ${quote(result)} at ${quote(test)}.`;
        const help =
          'Send the branch elsewhere, or say in the finding’s “expects” how often it gives this result.';
        const at = ['symptoms', symptom, 'steps', step, 'then', result];
        return warningAt(at, 'expectation-against-path', message, help);
      }),
  );
}
