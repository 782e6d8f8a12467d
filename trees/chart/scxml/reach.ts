import { destination, own, type Tree } from '../../document/index.ts';

/** A step that a symptom's job can come to. */
export interface ReachedStep {
  readonly id: string;
  readonly test: string;
  /** For each result, the id of the state it leads to. */
  readonly leads: readonly (readonly [result: string, target: string])[];
}

/** All that a job of one symptom can come to on its paths, with what `otherwise` leads to. */
export interface Reach {
  readonly start: string;
  readonly steps: readonly ReachedStep[];
  /** For each finding that has one, the id of the state it leads on to. */
  readonly otherwise: ReadonlyMap<string, string>;
}

/** Follows the branches from a symptom's first step, and from wherever a finding leads on. */
export function reachOf(tree: Tree, symptom: string): Reach {
  const otherwise = Object.entries(tree.findings).flatMap(([finding, { otherwise: go }]) => {
    const target = go === undefined ? null : targetOf(tree, go, symptom);
    return target === null ? [] : [[finding, target] as const];
  });
  const first = own(tree.symptoms, symptom)?.first;
  const start = first === undefined ? 'adrift.no-path' : stepId(symptom, first);
  const open = [start, ...otherwise.map(([, target]) => target)];
  const steps = new Map<string, ReachedStep>();
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const step = steps.has(id) ? undefined : stepAt(tree, id);
    if (step === undefined) continue;
    steps.set(id, step);
    open.push(...step.leads.map(([, target]) => target));
  }
  return { start, steps: [...steps.values()], otherwise: new Map(otherwise) };
}

/** The ids of the steps that ask this test. */
export function stepsOf({ steps }: Reach, test: string): readonly string[] {
  return steps.flatMap((step) => (step.test === test ? [step.id] : []));
}

export function stepId(symptom: string, step: string): string {
  return `path.${symptom}.${step}`;
}

function stepAt(tree: Tree, id: string): ReachedStep | undefined {
  const [kind, symptom = '', step = ''] = id.split('.');
  const found = kind === 'path' ? own(own(tree.symptoms, symptom)?.steps ?? {}, step) : undefined;
  if (found === undefined) return undefined;
  const leads = Object.entries(found.then).map(
    ([result, { go }]) => [result, targetOf(tree, go, symptom) ?? 'adrift.path-ended'] as const,
  );
  return { id, test: found.test, leads };
}

function targetOf(tree: Tree, go: string, symptom: string): string | null {
  const place = destination(go, symptom);
  if (place.kind === 'finding') return `finding.${place.finding}`;
  const to = own(tree.symptoms, place.symptom);
  const step = place.kind === 'step' ? place.step : to?.first;
  if (to === undefined || step === undefined || !Object.hasOwn(to.steps, step)) return null;
  return stepId(place.symptom, step);
}
