import type { Course, CourseStep } from './course.ts';
import { loopsOf } from './loop.ts';
import type { Recall } from './memory.ts';
import type { Names } from './names.ts';
import { ENTRIES, errorAt, quote, type Problem } from './problem.ts';
import type { Otherwise } from './reach.ts';
import type { Tree } from './tree.ts';

/** What keeps the paths from being walked to their ends: no way in, results that lead nowhere, loops. */
export function checkCourse(
  tree: Tree,
  course: Course,
  otherwise: Otherwise,
  { tests }: Names,
  recall: Recall,
): readonly Problem[] {
  return [
    ...waysIn(tree),
    // The order stands for where the branches lead, whatever they weigh.
    ...recall('missing-branches', course.order, [tests], () => missingBranches(tree, course)),
    ...recall('loops', course.order, [], () => loops(course)),
    ...bareOtherwise(tree, otherwise),
  ];
}

function waysIn(tree: Tree): readonly Problem[] {
  const symptoms = Object.entries(tree.symptoms);
  if (symptoms.length === 0) {
    const message = 'The tree has no symptom to start from.';
    return [errorAt(['symptoms'], 'no-symptoms', message, 'Add a symptom.', [['symptoms', ENTRIES]])];
  }
  return symptoms
    .filter(([, { first, weights }]) => first === undefined && Object.keys(weights).length === 0)
    .map(([id]) => {
      const message = `The symptom ${quote(id)} has neither a first step nor weights.`;
      return errorAt(
        ['symptoms', id],
        'no-way-in',
        message,
        'Give it “first”, or “weights” and leave the order to the planner.',
        [
          ['symptoms', id, 'first'],
          ['symptoms', id, 'weights'],
        ],
      );
    });
}

function missingBranches(tree: Tree, { steps }: Course): readonly Problem[] {
  return steps.flatMap(({ symptom, step, test, branches }) =>
    Object.keys(tree.tests[test]?.results ?? {})
      .filter((result) => !branches.some((branch) => branch.result === result))
      .map((result) => {
        const message = `The result ${quote(result)} of ${quote(test)} leads nowhere from this step.`;
        const help = `Add a branch ${quote(result)} that says where to go.`;
        const at = ['symptoms', symptom, 'steps', step, 'then'];
        return errorAt(at, 'missing-branch', message, help, [[...at, result]]);
      }),
  );
}

function loops(course: Course): readonly Problem[] {
  const onward = course.steps.map(({ branches }) =>
    branches.flatMap(({ lead }) => (lead.kind === 'step' ? [lead.index] : [])),
  );
  return loopsOf(onward).map((round) => {
    const steps = round.flatMap((index) => course.steps[index] ?? []);
    const names = [...steps, ...steps.slice(0, 1)].map(({ symptom, step }) => `${symptom}/${step}`);
    const message = `These steps go round in a loop: ${shortened(names).join(' → ')}.`;
    return errorAt(
      closingGo(steps.at(-1), round[0]),
      'loop',
      message,
      'Send one of their branches to a finding, or to a step outside the loop.',
    );
  });
}

/** The `go` by which the last step of a round leads back to its first. */
function closingGo(last: CourseStep | undefined, first: number | undefined): readonly PropertyKey[] {
  const back = last?.branches.find(({ lead }) => lead.kind === 'step' && lead.index === first);
  return ['symptoms', last?.symptom ?? '', 'steps', last?.step ?? '', 'then', back?.result ?? '', 'go'];
}

function shortened(names: readonly string[]): readonly string[] {
  return names.length <= 20 ? names : [...names.slice(0, 10), '…', ...names.slice(-9)];
}

/** A bare step is one of the path of the job's own symptom, and any symptom that leads to the finding can be that. */
function bareOtherwise(tree: Tree, { lacking }: Otherwise): readonly Problem[] {
  const somewhere = new Set(Object.values(tree.symptoms).flatMap(({ steps }) => Object.keys(steps)));
  return [...lacking].flatMap(([finding, symptoms]) => {
    const step = tree.findings[finding]?.otherwise ?? '';
    if (!somewhere.has(step)) return [];
    const message = `The path of ${symptoms.map(quote).join(', ')} leads here but has no step ${quote(step)}.`;
    const help = `Write symptom:ID/${step}, naming the path that has it.`;
    const places = symptoms.map((symptom) => ['symptoms', symptom, 'steps', step]);
    return [errorAt(['findings', finding, 'otherwise'], 'otherwise-not-in-path', message, help, places)];
  });
}
