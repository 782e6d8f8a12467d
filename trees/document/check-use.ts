import { referenceOf } from './band.ts';
import type { Course, Lead } from './course.ts';
import { loopsOf } from './loop.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import { reachOf, type Otherwise, type Reach } from './reach.ts';
import type { Tree } from './tree.ts';

/** All that a job of any symptom can come to, findings that only a symptom's weights name included. */
export function reachOfTree(tree: Tree, course: Course, { leads }: Otherwise): Reach {
  const firsts = [...course.firsts.values()].map((index): Lead => ({ kind: 'step', index }));
  const weighted = Object.values(tree.symptoms).flatMap(({ weights }) =>
    Object.keys(weights).map((finding): Lead => ({ kind: 'finding', finding })),
  );
  return reachOf(course, [...firsts, ...weighted], (finding) => leads.get(finding) ?? []);
}

/** What nothing comes to or uses, and ways on that only lead back: for trees without errors. */
export function warnOfUse(
  tree: Tree,
  course: Course,
  otherwise: Otherwise,
  reach: Reach,
): readonly Problem[] {
  return [
    ...unreached(tree, course, reach),
    ...unusedTests(tree),
    ...otherwiseLoops(tree, course, otherwise),
  ];
}

function unreached(tree: Tree, course: Course, reach: Reach): readonly Problem[] {
  const findings = Object.keys(tree.findings)
    .filter((id) => !reach.findings.has(id))
    .map((id) =>
      warningAt(
        ['findings', id],
        'finding-unreached',
        `No path and no weights lead to the finding ${quote(id)}.`,
        'Send a branch to it, or take it out.',
      ),
    );
  const steps = course.steps
    .filter((_, index) => !reach.steps.has(index))
    .map(({ symptom, step }) =>
      warningAt(
        ['symptoms', symptom, 'steps', step],
        'step-unreached',
        `Nothing leads to the step ${quote(step)}.`,
        'Send a branch to it, or take it out.',
      ),
    );
  return [...findings, ...steps];
}

/** Where a symptom leaves the order to the planner, a test of which a finding expects something is of use to it. */
function unusedTests(tree: Tree): readonly Problem[] {
  const planned = Object.values(tree.symptoms).some(({ first }) => first === undefined);
  const used = new Set([
    ...Object.values(tree.symptoms).flatMap(({ steps }) => Object.values(steps).map(({ test }) => test)),
    ...Object.values(tree.findings).flatMap(({ prove, expects }) => [
      ...prove,
      ...(planned ? Object.keys(expects) : []),
    ]),
    ...tree.interlocks.flatMap(({ until }) => Object.keys(until)),
    ...Object.values(tree.tests).flatMap((test) => referenceOf(test) ?? []),
  ]);
  return Object.keys(tree.tests)
    .filter((id) => !used.has(id))
    .map((id) =>
      warningAt(
        ['tests', id],
        'test-unused',
        `No step, proof, interlock or ratio uses the test ${quote(id)}.`,
        'Use it, or take it out.',
      ),
    );
}

/** Loops that only `otherwise` closes; each would end in a finding whose remedy has been tried already. */
function otherwiseLoops(tree: Tree, course: Course, { leads }: Otherwise): readonly Problem[] {
  const findings = Object.keys(tree.findings);
  const places = new Map(findings.map((id, index) => [id, course.steps.length + index]));
  const nodes = (ways: readonly Lead[]): readonly number[] =>
    ways.flatMap((lead) => {
      if (lead.kind === 'step') return lead.index;
      return lead.kind === 'finding' ? (places.get(lead.finding) ?? []) : [];
    });
  const onward = [
    ...course.steps.map(({ branches }) => nodes(branches.map(({ lead }) => lead))),
    ...findings.map((id) => nodes(leads.get(id) ?? [])),
  ];
  return loopsOf(onward).map((round) => {
    const members = round.flatMap((node) => findings[node - course.steps.length] ?? []);
    const message = `When its remedy does not mend, the way on leads round to the finding again: ${members.map(quote).join(', ')}.`;
    return warningAt(
      ['findings', members[0] ?? '', 'otherwise'],
      'otherwise-loop',
      message,
      'Go on at a step after which other findings follow.',
    );
  });
}
