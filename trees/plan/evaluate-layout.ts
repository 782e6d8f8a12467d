import { courseOf, own, referenceOf, type Course, type Tree } from '../document/index.ts';

/** Where a branch leads, by number. */
export type Lead = Course['steps'][number]['branches'][number]['lead'];

/** A step: its test, and where each of the test's results leads. */
export interface StepLayout {
  readonly symptom: string;
  readonly step: string;
  readonly test: number;
  readonly leads: readonly Lead[];
}

export interface TestLayout {
  readonly id: string;
  readonly results: readonly string[];
  readonly opens: boolean;
  readonly isReference: boolean;
}

export interface FindingLayout {
  readonly id: string;
  /** Tests of its proof; none named where it is made of what was not sound. */
  readonly prove: readonly number[];
  readonly disturbs: readonly number[];
  readonly otherwise: Lead | null;
}

/** A tree's paths with steps, tests and findings by number, in the tree's order, for walking many jobs fast. */
export interface Layout {
  readonly tree: Tree;
  readonly tests: readonly TestLayout[];
  readonly findings: readonly FindingLayout[];
  readonly findingNumber: ReadonlyMap<string, number>;
  readonly steps: readonly StepLayout[];
  /** Steps in onward order. */
  readonly order: readonly number[];
  /** Where the symptom's path starts; nowhere for a symptom without one. */
  readonly first: Lead;
  /** Tests whose answer decides about interlocks, or is a reference of others. */
  readonly locking: readonly number[];
}

export function layoutOf(tree: Tree, symptom: string): Layout {
  const course = courseOf(tree);
  const openers = new Set(tree.interlocks.flatMap(({ until }) => Object.keys(until)));
  const references = new Set(Object.values(tree.tests).flatMap((test) => referenceOf(test) ?? []));
  const tests = Object.entries(tree.tests).map(([id, { results }]) => ({
    id,
    results: Object.keys(results),
    opens: openers.has(id),
    isReference: references.has(id),
  }));
  const numbers = new Map(tests.map(({ id }, number) => [id, number]));
  const numbered = (ids: readonly string[]) => [...new Set(ids)].flatMap((id) => numbers.get(id) ?? []);
  const findings = Object.entries(tree.findings).map(([id, { prove, remedy, otherwise }]) => ({
    id,
    prove: numbered(prove),
    disturbs: numbered(remedy.disturbs),
    otherwise: otherwise === undefined ? null : course.lead(otherwise, symptom),
  }));
  const first = own(tree.symptoms, symptom)?.first;
  return {
    tree,
    tests,
    findings,
    findingNumber: new Map(findings.map(({ id }, number) => [id, number])),
    steps: course.steps.map((step) => stepLayout(step, numbers, tests)),
    order: course.order,
    first: first === undefined ? { kind: 'nowhere' } : course.lead(first, symptom),
    locking: tests.flatMap(({ opens, isReference }, number) => (opens || isReference ? [number] : [])),
  };
}

function stepLayout(
  { symptom, step, test: id, branches }: Course['steps'][number],
  numbers: ReadonlyMap<string, number>,
  tests: readonly TestLayout[],
): StepLayout {
  const test = numbers.get(id) ?? 0;
  const leads = tests[test]?.results.map(
    (result): Lead => branches.find((branch) => branch.result === result)?.lead ?? { kind: 'nowhere' },
  );
  return { symptom, step, test, leads: leads ?? [] };
}
