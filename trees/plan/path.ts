import { destination, type Step, type Symptom, type Tree } from '../document/index.ts';
import { spotOf, type Spot } from './former-path.ts';
import type { Policy } from './policy.ts';

type Steps = Record<string, Step>;

/** A path as a tree document holds it. */
export interface Path {
  readonly first: string;
  readonly steps: Steps;
}

/** Weights are written as units in a thousand that come to the step's branch. */
const UNITS = 1000;

/**
 * Writes a policy as a path: one step for each of its tests, the same for parts that are the same. A step takes the id of
 * a former step of the same test, so that ids stay what they were as far as they can; new ones are called by their test.
 * Former steps that other paths or findings lead to stay as they are, under their ids. Null where the policy makes no test.
 */
export function pathOf(tree: Tree, symptomId: string, policy: Policy): Path | null {
  const symptom = tree.symptoms[symptomId];
  if (symptom === undefined || policy.kind === 'finding') return null;
  const plan = collapsed(tree, symptomId, policy);
  if (plan.kind !== 'test')
    return symptom.first === undefined ? null : { first: symptom.first, steps: symptom.steps };
  const kept = keptSteps(tree, symptomId, symptom, plan);
  const name = namer(symptom, kept);
  const named = new Map<string, string>();
  const steps: Steps = {};
  const write = (part: Policy, share: number): string => {
    if (part.kind === 'finding') return `finding:${part.finding}`;
    if (part.kind === 'former') return goOf(part.spot, symptomId);
    const same = shapeOf(part, symptomId);
    const had = named.get(same);
    if (had !== undefined) return had;
    const id = name(part.test);
    named.set(same, id);
    steps[id] = { test: part.test, then: {} };
    steps[id] = { test: part.test, then: thenOf(tree, part, share, write) };
    return id;
  };
  const first = write(plan, 1);
  return {
    first,
    steps: { ...steps, ...Object.fromEntries([...kept].map((id) => [id, symptom.steps[id]])) } as Steps,
  };
}

/** A part that does just what the former path does there is the former path. */
function collapsed(tree: Tree, symptomId: string, policy: Policy, from?: Spot): Policy {
  if (policy.kind !== 'test') return policy;
  const spot = from ?? spotOf(tree, `symptom:${symptomId}`, symptomId);
  const step = spot.kind === 'step' ? tree.symptoms[spot.symptom]?.steps[spot.step] : undefined;
  const results = Object.keys(tree.tests[policy.test]?.results ?? {});
  const isOwn = spot.kind === 'step' && step?.test === policy.test;
  const after = (at: number): Spot | undefined =>
    isOwn ? spotOf(tree, step?.then[results[at] ?? '']?.go ?? '', spot.symptom) : undefined;
  const branches = policy.branches.map(({ probability, then }, at) => ({
    probability,
    then: collapsed(tree, symptomId, then, after(at) ?? spot),
  }));
  const isFormer = isOwn && branches.every(({ then }, at) => leadsTo(then, after(at)));
  return isFormer ? { kind: 'former', spot } : { ...policy, branches };
}

function leadsTo(policy: Policy, spot: Spot | undefined): boolean {
  if (spot === undefined || policy.kind === 'test') return false;
  const place = policy.kind === 'former' ? policy.spot : policy;
  return JSON.stringify(place) === JSON.stringify(spot);
}

function goOf(spot: Spot, symptomId: string): string {
  if (spot.kind === 'finding') return `finding:${spot.finding}`;
  if (spot.kind === 'nowhere') throw new Error('nowhere-to-go: the former path has no such place');
  return spot.symptom === symptomId ? spot.step : `symptom:${spot.symptom}/${spot.step}`;
}

function thenOf(
  tree: Tree,
  { test, branches }: Extract<Policy, { kind: 'test' }>,
  share: number,
  write: (part: Policy, share: number) => string,
): Step['then'] {
  const results = Object.keys(tree.tests[test]?.results ?? {});
  return Object.fromEntries(
    branches.map(({ probability, then }, at) => {
      const weight = Number((UNITS * share * probability).toPrecision(4));
      return [results[at] ?? '', { go: write(then, share * probability), weight }];
    }),
  );
}

/** The same text for parts that do the same. */
const shapes = new WeakMap<Policy, string>();

function shapeOf(policy: Policy, symptomId: string): string {
  if (policy.kind === 'finding') return `=${policy.finding}`;
  if (policy.kind === 'former') return goOf(policy.spot, symptomId);
  const known = shapes.get(policy);
  if (known !== undefined) return known;
  const made = `${policy.test}(${policy.branches.map(({ then }) => shapeOf(then, symptomId)).join()})`;
  shapes.set(policy, made);
  return made;
}

/** Steps that other symptoms' paths, a finding's `otherwise` or the plan lead to, with all that follow them. */
function keptSteps(tree: Tree, symptomId: string, { steps }: Symptom, plan: Policy): ReadonlySet<string> {
  const others = Object.entries(tree.symptoms)
    .filter(([id]) => id !== symptomId)
    .flatMap(([id, other]) => Object.values(other.steps).flatMap(({ then }) => gosOf(then, id)));
  const otherwise = Object.values(tree.findings).flatMap((finding) =>
    finding.otherwise === undefined ? [] : [destination(finding.otherwise, symptomId)],
  );
  const kept = new Set<string>();
  const waiting: Spot[] = [...others, ...otherwise, ...formerSpots(plan)].map((place) =>
    place.kind === 'symptom' ? { kind: 'nowhere' } : place,
  );
  for (let place = waiting.pop(); place !== undefined; place = waiting.pop()) {
    if (place.kind !== 'step' || place.symptom !== symptomId || kept.has(place.step)) continue;
    const step = steps[place.step];
    if (step === undefined) continue;
    kept.add(place.step);
    for (const { go } of Object.values(step.then)) waiting.push(spotOf(tree, go, symptomId));
  }
  return kept;
}

function formerSpots(plan: Policy): readonly Spot[] {
  if (plan.kind === 'former') return [plan.spot];
  return plan.kind === 'test' ? plan.branches.flatMap(({ then }) => formerSpots(then)) : [];
}

function gosOf(then: Step['then'], symptom: string) {
  return Object.values(then).map(({ go }) => destination(go, symptom));
}

/** Gives out step ids: a former step's of the same test that is not kept, else the test's own, numbered where it is taken. */
function namer({ steps }: Symptom, kept: ReadonlySet<string>): (test: string) => string {
  const taken = new Set(kept);
  const former = Object.entries(steps).filter(([id]) => !kept.has(id));
  return (test) => {
    const again = former.find(([id, step]) => step.test === test && !taken.has(id))?.[0];
    let id = again ?? test;
    for (let number = 2; taken.has(id); number += 1) id = `${test}-${String(number)}`;
    taken.add(id);
    return id;
  };
}
