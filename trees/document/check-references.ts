import type { Course } from './course.ts';
import { destination } from './destination.ts';
import type { Recall } from './memory.ts';
import type { Names } from './names.ts';
import { ENTRIES, errorAt, quote, type Problem } from './problem.ts';
import { UNLISTED } from './schema.ts';
import type { Finding, Needs, Step, Symptom, Test, Tree } from './tree.ts';

type Path = readonly PropertyKey[];

/**
 * Every mention of an axis, state, test, result, finding, symptom or step that the document does not have. What a part mentions
 * is looked up again only where the part has changed, or what there is to be mentioned.
 */
export function checkReferences(
  tree: Tree,
  course: Course,
  { tests, findings, symptoms }: Names,
  recall: Recall,
): readonly Problem[] {
  // The order stands for the steps and where they lead, whatever their branches weigh.
  const ofSteps = recall('references', course.order, [tests, findings, symptoms], () => {
    const problems = entries(tree.symptoms).map(([id, { steps }]): [string, readonly Problem[]] => [
      id,
      entries(steps).flatMap(([stepId, step]) =>
        recall('references', step, [id, stepId, tests, findings, symptoms], () =>
          stepProblems(tree, id, stepId, step),
        ),
      ),
    ]);
    return new Map(problems);
  });
  return [
    ...benchProblems(tree),
    ...interlockProblems(tree),
    ...entries(tree.tests).flatMap(([id, test]) =>
      recall('references', test, [id, tree.bench, tests], () => testProblems(tree, id, test)),
    ),
    ...entries(tree.findings).flatMap(([id, finding]) =>
      recall('references', finding, [id, tree.bench, tests, findings, symptoms], () =>
        findingProblems(tree, id, finding),
      ),
    ),
    ...entries(tree.symptoms).flatMap(([id, symptom]) => [
      ...recall('references', symptom, [id, findings], () => symptomProblems(tree, id, symptom)),
      ...(ofSteps.get(id) ?? []),
    ]),
  ];
}

function benchProblems(tree: Tree): readonly Problem[] {
  return entries(tree.bench).flatMap(([axis, { start, changes }]) => [
    ...stateProblems(tree, axis, start, ['bench', axis, 'start']),
    ...changes.flatMap(({ from, to }, index) => [
      ...stateProblems(tree, axis, from, ['bench', axis, 'changes', index, 'from']),
      ...stateProblems(tree, axis, to, ['bench', axis, 'changes', index, 'to']),
    ]),
  ]);
}

function interlockProblems(tree: Tree): readonly Problem[] {
  return tree.interlocks.flatMap(({ change, until }, index) => [
    ...needsProblems(tree, change, ['interlocks', index, 'change']),
    ...entries(until).flatMap(([test, results]) =>
      hasOwn(tree.tests, test)
        ? results.flatMap((result, place) =>
            resultProblems(tree, test, result, ['interlocks', index, 'until', test, place]),
          )
        : [unknown('test', test, ['interlocks', index, 'until', test], [['tests', test]])],
    ),
  ]);
}

function testProblems(tree: Tree, id: string, test: Test): readonly Problem[] {
  return [
    ...needsProblems(tree, test.needs, ['tests', id, 'needs']),
    ...entries(test.results).flatMap(([result, { band }]) =>
      band?.of === undefined ? [] : knownTest(tree, band.of, ['tests', id, 'results', result, 'band', 'of']),
    ),
  ];
}

function findingProblems(tree: Tree, id: string, finding: Finding): readonly Problem[] {
  const { remedy, prove, expects, otherwise } = finding;
  const reserved = errorAt(
    ['findings', id],
    'reserved-id',
    `“${UNLISTED}” stands for whatever is not in this tree and cannot be a finding’s id.`,
    'Give the finding another id.',
  );
  return [
    ...(id === UNLISTED ? [reserved] : []),
    ...needsProblems(tree, remedy.needs, ['findings', id, 'remedy', 'needs']),
    ...remedy.disturbs.flatMap((test, place) =>
      knownTest(tree, test, ['findings', id, 'remedy', 'disturbs', place]),
    ),
    ...prove.flatMap((test, place) => knownTest(tree, test, ['findings', id, 'prove', place])),
    ...entries(expects).flatMap(([test, expected]) =>
      expectsProblems(tree, test, expected, ['findings', id, 'expects', test]),
    ),
    ...(otherwise === undefined ? [] : otherwiseProblems(tree, otherwise, ['findings', id, 'otherwise'])),
  ];
}

function expectsProblems(
  tree: Tree,
  test: string,
  expected: Finding['expects'][string],
  at: Path,
): readonly Problem[] {
  if (!hasOwn(tree.tests, test)) return knownTest(tree, test, at);
  if (typeof expected === 'string') return resultProblems(tree, test, expected, at);
  return Object.keys(expected).flatMap((result) => resultProblems(tree, test, result, [...at, result]));
}

/** A bare step is one of whichever symptom's path the job is on, so here it is enough that some path has it. */
function otherwiseProblems(tree: Tree, otherwise: string, at: Path): readonly Problem[] {
  const place = destination(otherwise, '');
  if (place.kind !== 'step' || place.symptom !== '') return goProblems(tree, otherwise, '', at);
  const somewhere = Object.values(tree.symptoms).some(({ steps }) => hasOwn(steps, place.step));
  if (somewhere) return [];
  const paths = Object.keys(tree.symptoms).map((symptom) => ['symptoms', symptom, 'steps', place.step]);
  return [unknown('step', place.step, at, [...paths, ['symptoms', ENTRIES]])];
}

function symptomProblems(tree: Tree, id: string, { first, weights, steps }: Symptom): readonly Problem[] {
  return [
    ...(first === undefined ? [] : firstStepProblems(id, first, steps)),
    ...Object.keys(weights)
      .filter((finding) => !hasOwn(tree.findings, finding))
      .map((finding) =>
        unknown('finding', finding, ['symptoms', id, 'weights', finding], [['findings', finding]]),
      ),
  ];
}

function stepProblems(tree: Tree, symptom: string, step: string, { test, then }: Step): readonly Problem[] {
  const at = ['symptoms', symptom, 'steps', step];
  return [
    ...knownTest(tree, test, [...at, 'test']),
    ...entries(then).flatMap(([result, { go }]) => [
      ...(hasOwn(tree.tests, test) ? resultProblems(tree, test, result, [...at, 'then', result]) : []),
      ...goProblems(tree, go, symptom, [...at, 'then', result, 'go']),
    ]),
  ];
}

function firstStepProblems(symptom: string, first: string, steps: Symptom['steps']): readonly Problem[] {
  if (hasOwn(steps, first)) return [];
  const at = ['symptoms', symptom, 'first'];
  const place = ['symptoms', symptom, 'steps', first];
  if (Object.keys(steps).length > 0) return [unknown('step', first, at, [place])];
  const message = `The symptom ${quote(symptom)} has a first step, and its “steps” are missing.`;
  const help = 'Add “steps”, or take “first” out and give it “weights”.';
  return [errorAt(at, 'missing-steps', message, help, [['symptoms', symptom, 'steps', ENTRIES]])];
}

function goProblems(tree: Tree, go: string, symptom: string, at: Path): readonly Problem[] {
  const place = destination(go, symptom);
  if (place.kind === 'finding') {
    return hasOwn(tree.findings, place.finding)
      ? []
      : [unknown('finding', place.finding, at, [['findings', place.finding]])];
  }
  const there = hasOwn(tree.symptoms, place.symptom) ? tree.symptoms[place.symptom] : undefined;
  const path = ['symptoms', place.symptom];
  if (there === undefined) return [unknown('symptom', place.symptom, at, [path])];
  if (place.kind === 'step') {
    const lacks = !hasOwn(there.steps, place.step);
    return lacks ? [unknown('step', place.step, at, [[...path, 'steps', place.step]])] : [];
  }
  if (there.first !== undefined) return [];
  const message = `The symptom ${quote(place.symptom)} has no path to go on in.`;
  return [
    errorAt(at, 'no-path', message, `Give it a “first” step, or go on to symptom:${place.symptom}/STEP.`, [
      [...path, 'first'],
    ]),
  ];
}

function needsProblems(tree: Tree, needs: Needs, at: Path): readonly Problem[] {
  return entries(needs).flatMap(([axis, state]) =>
    hasOwn(tree.bench, axis)
      ? stateProblems(tree, axis, state, [...at, axis])
      : [unknown('axis', axis, [...at, axis], [['bench', axis]])],
  );
}

function stateProblems(tree: Tree, axis: string, state: string, at: Path): readonly Problem[] {
  const place = ['bench', axis, 'states', state];
  return hasOwn(tree.bench[axis]?.states ?? {}, state) ? [] : [unknown('state', state, at, [place])];
}

function resultProblems(tree: Tree, test: string, result: string, at: Path): readonly Problem[] {
  const place = ['tests', test, 'results', result];
  return hasOwn(tree.tests[test]?.results ?? {}, result) ? [] : [unknown('result', result, at, [place])];
}

function knownTest(tree: Tree, test: string, at: Path): readonly Problem[] {
  return hasOwn(tree.tests, test) ? [] : [unknown('test', test, at, [['tests', test]])];
}

const WHERE = {
  axis: 'in “bench”',
  state: 'of that axis in “bench”',
  test: 'in “tests”',
  result: 'of that test in “tests”',
  finding: 'in “findings”',
  symptom: 'in “symptoms”',
  step: 'of that path’s “steps”',
} as const;

/** `places` are where the id would stand. */
function unknown(kind: keyof typeof WHERE, id: string, at: Path, places: readonly Path[]): Problem {
  const help = `Use the id of one ${WHERE[kind]}, or add it there.`;
  return errorAt(at, `unknown-${kind}`, `There is no ${kind} ${quote(id)}.`, help, places);
}

function entries<Value>(record: Readonly<Record<string, Value>>): [string, Value][] {
  return Object.entries(record);
}

function hasOwn(record: object, id: string): boolean {
  return Object.hasOwn(record, id);
}
