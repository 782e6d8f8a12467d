import type { Course, Lead } from './course.ts';
import { otherwiseLead } from './check-course.ts';
import { loopsOf } from './loop.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import { reachOf, type Reach } from './reach.ts';
import { bandsOf, referenceOf } from './band.ts';
import type { Tree } from './tree.ts';

/** All that a job of any symptom can come to, findings that only a symptom's weights name included. */
export function reachOfTree(tree: Tree, course: Course): Reach {
  const firsts = [...course.firsts.values()].map((index): Lead => ({ kind: 'step', index }));
  const weighted = Object.values(tree.symptoms).flatMap(({ weights }) =>
    Object.keys(weights ?? {}).map((finding): Lead => ({ kind: 'finding', finding })),
  );
  const symptoms = Object.keys(tree.symptoms);
  return reachOf(course, [...firsts, ...weighted], (finding) =>
    symptoms.map((symptom) => otherwiseLead(tree, course, finding, symptom)),
  );
}

/** What nothing comes to or uses, and what is there twice: for trees without errors in their references and paths. */
export function warnOfUse(tree: Tree, course: Course, reach: Reach): readonly Problem[] {
  return [...unreached(tree, course, reach), ...unusedTests(tree), ...otherwiseLoops(tree, course)];
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

/** A tree that leaves some order to the planner may use every test, so there none is idle. */
function unusedTests(tree: Tree): readonly Problem[] {
  if (Object.values(tree.symptoms).some(({ first }) => first === undefined)) return [];
  const used = new Set([
    ...Object.values(tree.symptoms).flatMap(({ steps }) => Object.values(steps).map(({ test }) => test)),
    ...Object.values(tree.findings).flatMap(({ prove }) => prove),
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
function otherwiseLoops(tree: Tree, course: Course): readonly Problem[] {
  const findings = Object.keys(tree.findings);
  const places = new Map(findings.map((id, index) => [id, course.steps.length + index]));
  const nodes = (leads: readonly Lead[]): readonly number[] =>
    leads.flatMap((lead) => {
      if (lead.kind === 'nowhere') return [];
      return lead.kind === 'step' ? [lead.index] : [places.get(lead.finding) ?? []].flat();
    });
  const onward = [
    ...course.steps.map(({ branches }) => nodes(branches.map(({ lead }) => lead))),
    ...findings.map((id) => nodes(otherwiseLeads(tree, course, id))),
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

function otherwiseLeads(tree: Tree, course: Course, finding: string): readonly Lead[] {
  return Object.keys(tree.symptoms).map((symptom) => otherwiseLead(tree, course, finding, symptom));
}

/** Readings below these cannot be: a resistance, frequency or time is never negative, nothing is colder than 0 K. */
const LEAST_READING: Readonly<Record<string, number>> = { ohm: 0, Hz: 0, s: 0, degC: -273.15 };

/** Findings whose repair is not proved, or cannot be. */
export function warnOfProofs(tree: Tree): readonly Problem[] {
  return Object.entries(tree.findings).flatMap(([id, { prove, remedy }]) => {
    const missing = warningAt(
      ['findings', id, 'prove'],
      'missing-proof',
      `Nothing proves that the remedy for ${quote(id)} has mended the unit.`,
      'Name the complaint’s own test in “prove”, and those the work could have broken.',
    );
    return [
      ...(prove.length === 0 ? [missing] : []),
      ...prove.flatMap((test, place) => unprovable(tree, test, ['findings', id, 'prove', place])),
      ...repeated(prove, ['findings', id, 'prove']),
      ...repeated(remedy.disturbs, ['findings', id, 'remedy', 'disturbs']),
    ];
  });
}

function unprovable(tree: Tree, testId: string, at: readonly PropertyKey[]): readonly Problem[] {
  const test = Object.hasOwn(tree.tests, testId) ? tree.tests[testId] : undefined;
  const sound = Object.keys(test?.results ?? {})[0];
  const band = test === undefined ? undefined : bandsOf(test).find(({ result }) => result === sound);
  if (band === undefined || band.of !== undefined) return [];
  if (band.to > (LEAST_READING[test?.reading?.unit ?? ''] ?? -Infinity)) return [];
  const message = `The proof ${quote(testId)} must give its first result, and no reading can be in that band.`;
  return [
    warningAt(at, 'proof-unreachable', message, 'Put the result of a sound unit first, and mend its band.'),
  ];
}

function repeated(ids: readonly string[], at: readonly PropertyKey[]): readonly Problem[] {
  return ids.flatMap((id, place) =>
    ids.indexOf(id) === place
      ? []
      : [
          warningAt(
            [...at, place],
            'duplicate-entry',
            `${quote(id)} stands in this list twice.`,
            'Keep one of the two.',
          ),
        ],
  );
}
