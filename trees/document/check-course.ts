import type { Course, Lead } from './course.ts';
import { destination } from './destination.ts';
import { loopsOf } from './loop.ts';
import { errorAt, quote, type Problem } from './problem.ts';
import { reachOf } from './reach.ts';
import type { Tree } from './tree.ts';

/** What keeps the paths from being walked to their ends: no way in, results that lead nowhere, loops. */
export function checkCourse(tree: Tree, course: Course): readonly Problem[] {
  return [...waysIn(tree), ...missingBranches(tree), ...loops(course), ...bareOtherwise(tree, course)];
}

function waysIn(tree: Tree): readonly Problem[] {
  const symptoms = Object.entries(tree.symptoms);
  if (symptoms.length === 0) {
    return [errorAt(['symptoms'], 'no-symptoms', 'The tree has no symptom to start from.', 'Add a symptom.')];
  }
  return symptoms
    .filter(([, { first, weights }]) => first === undefined && weights === undefined)
    .map(([id]) => {
      const message = `The symptom ${quote(id)} has neither a first step nor weights.`;
      return errorAt(
        ['symptoms', id],
        'no-way-in',
        message,
        'Give it “first”, or “weights” and leave the order to the planner.',
      );
    });
}

function missingBranches(tree: Tree): readonly Problem[] {
  return Object.entries(tree.symptoms).flatMap(([symptom, { steps }]) =>
    Object.entries(steps).flatMap(([step, { test, then }]) =>
      Object.keys(tree.tests[test]?.results ?? {})
        .filter((result) => !Object.hasOwn(then, result))
        .map((result) => {
          const message = `The result ${quote(result)} of ${quote(test)} leads nowhere from this step.`;
          const help = `Add a branch ${quote(result)} that says where to go.`;
          return errorAt(['symptoms', symptom, 'steps', step, 'then'], 'missing-branch', message, help);
        }),
    ),
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
    const at = ['symptoms', steps[0]?.symptom ?? '', 'steps', steps[0]?.step ?? ''];
    return errorAt(
      at,
      'loop',
      message,
      'Send one of their branches to a finding, or to a step outside the loop.',
    );
  });
}

function shortened(names: readonly string[]): readonly string[] {
  return names.length <= 20 ? names : [...names.slice(0, 10), '…', ...names.slice(-9)];
}

/** A bare step in `otherwise` is looked up in the path of the job's own symptom, whichever of them led to the finding. */
function bareOtherwise(tree: Tree, course: Course): readonly Problem[] {
  const bare = Object.entries(tree.findings).flatMap(([id, { otherwise }]) => {
    const place = otherwise === undefined ? undefined : destination(otherwise, '');
    return place?.kind === 'step' && place.symptom === '' ? [{ id, step: place.step }] : [];
  });
  if (bare.length === 0) return [];
  const lacking = new Map<string, string[]>();
  for (const [symptom, first] of course.firsts) {
    const { findings } = reachOf(course, [{ kind: 'step', index: first }], (finding) => [
      otherwiseLead(tree, course, finding, symptom),
    ]);
    for (const { id, step } of bare) {
      const has = Object.hasOwn(tree.symptoms[symptom]?.steps ?? {}, step);
      if (!has && findings.has(id)) lacking.set(id, [...(lacking.get(id) ?? []), symptom]);
    }
  }
  return bare
    .filter(
      ({ id, step }) =>
        lacking.has(id) && Object.values(tree.symptoms).some(({ steps }) => Object.hasOwn(steps, step)),
    )
    .map(({ id, step }) => {
      const message = `The path of ${(lacking.get(id) ?? []).map(quote).join(', ')} leads here but has no step ${quote(step)}.`;
      return errorAt(
        ['findings', id, 'otherwise'],
        'otherwise-not-in-path',
        message,
        `Write symptom:ID/${step}, naming the path that has it.`,
      );
    });
}

/** Where a finding whose remedy did not mend goes on, in a job that came in with `symptom`. */
export function otherwiseLead(tree: Tree, course: Course, finding: string, symptom: string): Lead {
  const otherwise = tree.findings[finding]?.otherwise;
  return otherwise === undefined ? { kind: 'nowhere' } : course.lead(otherwise, symptom);
}
