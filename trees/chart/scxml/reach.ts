import { destination, own, type Tree } from '../../document/index.ts';

/** A step that a job can come to. */
export interface ReachedStep {
  readonly id: string;
  readonly test: string;
  /** For each result, the id of the state it leads to. */
  readonly leads: readonly (readonly [result: string, target: string])[];
}

/** For each symptom, the id of the state that a job of it is led to. */
export type BySymptom = ReadonlyMap<string, string>;

/** All that the jobs of a tree can come to on their paths, with what `otherwise` leads to. */
export interface Reach {
  readonly starts: BySymptom;
  readonly steps: readonly ReachedStep[];
  /** For each finding that has one. A step named without its symptom is one of the path of the job's symptom. */
  readonly otherwise: ReadonlyMap<string, BySymptom>;
}

/** Follows the branches from the first step of every symptom, and from wherever a finding leads on. */
export function reachOf(tree: Tree): Reach {
  const starts = bySymptom(tree, (symptom) => {
    const first = own(tree.symptoms, symptom)?.first;
    return first === undefined ? 'adrift.no-path' : stepId(symptom, first);
  });
  const otherwise = Object.entries(tree.findings).flatMap(([finding, { otherwise: go }]) =>
    go === undefined ? [] : [[finding, bySymptom(tree, (symptom) => targetOf(tree, go, symptom))] as const],
  );
  const open = [starts, ...otherwise.map(([, targets]) => targets)].flatMap((targets) => [
    ...targets.values(),
  ]);
  const steps = new Map<string, ReachedStep>();
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const step = steps.has(id) ? undefined : stepAt(tree, id);
    if (step === undefined) continue;
    steps.set(id, step);
    open.push(...step.leads.map(([, target]) => target));
  }
  return { starts, steps: [...steps.values()], otherwise: new Map(otherwise) };
}

/** The ids of the steps that ask this test. */
export function stepsOf({ steps }: Reach, test: string): readonly string[] {
  return steps.flatMap((step) => (step.test === test ? [step.id] : []));
}

/** The findings whose remedy the export covers: those that name the tests of their proof. */
export function provable(tree: Tree): readonly string[] {
  return Object.entries(tree.findings).flatMap(([finding, { prove }]) => (prove.length > 0 ? [finding] : []));
}

function bySymptom(tree: Tree, target: (symptom: string) => string): BySymptom {
  return new Map(Object.keys(tree.symptoms).map((symptom) => [symptom, target(symptom)]));
}

function stepId(symptom: string, step: string): string {
  return `path.${symptom}.${step}`;
}

function stepAt(tree: Tree, id: string): ReachedStep | undefined {
  const [kind, symptom = '', step = ''] = id.split('.');
  const found = kind === 'path' ? own(own(tree.symptoms, symptom)?.steps ?? {}, step) : undefined;
  if (found === undefined) return undefined;
  const leads = Object.entries(found.then).map(
    ([result, { go }]) => [result, targetOf(tree, go, symptom)] as const,
  );
  return { id, test: found.test, leads };
}

/** Where a `go` or `otherwise` leads, read in this symptom's path: the path has ended where no such place is. */
function targetOf(tree: Tree, go: string, symptom: string): string {
  const place = destination(go, symptom);
  if (place.kind === 'finding') return `finding.${place.finding}`;
  const to = own(tree.symptoms, place.symptom);
  const step = place.kind === 'step' ? place.step : to?.first;
  if (step === undefined || own(to?.steps ?? {}, step) === undefined) return 'adrift.path-ended';
  return stepId(place.symptom, step);
}
