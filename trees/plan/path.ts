import { destination, type Step, type Symptom, type Tree } from '../document/index.ts';
import { spotOf, type Spot } from './former-path.ts';
import { withLent } from './lent.ts';
import type { Policy } from './policy.ts';
import { tidyWeights } from './tidy.ts';

type TestPolicy = Extract<Policy, { kind: 'test' }>;
type FormerPolicy = Extract<Policy, { kind: 'former' }>;

/** A path as a tree document holds it. */
export interface Path {
  readonly first: string;
  readonly steps: Readonly<Record<string, Step>>;
}

/** Weights are written as units in a thousand that come to the step's branch, in few digits. */
export const UNITS = 1000;

/**
 * Writes a policy as a path: one step for each of its tests, the same for parts that are the same. A step takes the id of
 * a former step of the same test, so that ids stay what they were as far as they can; new ones are called by their test.
 * Former steps that other paths or findings lead to stay as they are, under their ids. Null where the policy makes no test,
 * or is the former path.
 */
export function pathOf(tree: Tree, symptomId: string, policy: Policy): Path | null {
  const symptom = tree.symptoms[symptomId];
  if (symptom === undefined || policy.kind === 'finding') return null;
  const plan = collapsed(tree, symptomId, policy);
  if (plan.kind !== 'test') return null;
  const kept = keptSteps(tree, symptomId, symptom, plan);
  const { first, steps } = written(tree, symptomId, plan, namer(tree, symptom, kept));
  const others = Object.fromEntries(Object.entries(symptom.steps).filter(([id]) => kept.has(id)));
  return withLent(tree, symptomId, { first, steps: { ...steps, ...others } });
}

function written(tree: Tree, symptomId: string, plan: TestPolicy, name: (test: string) => string): Path {
  const shapeOf = shapes(symptomId);
  const named = new Map<string, string>();
  const drafts = new Map<string, Draft>();
  const write = (part: Policy, share: number): string => {
    if (part.kind === 'finding') return `finding:${part.finding}`;
    if (part.kind === 'former') return goOf(part.spot, symptomId);
    const shape = shapeOf(part);
    const id = named.get(shape) ?? name(part.test);
    named.set(shape, id);
    // Set before what follows it, so that steps stand in the order in which they are come to.
    const draft = drafts.get(id) ?? { test: part.test, branches: [] };
    drafts.set(id, draft);
    part.branches.forEach(({ probability, then }, at) => {
      const units = UNITS * share * probability + (draft.branches[at]?.units ?? 0);
      draft.branches[at] = { go: write(then, share * probability), units };
    });
    return id;
  };
  const first = write(plan, 1);
  const weights = weightsOf(first, drafts);
  const steps = [...drafts].map(([id, draft]) => [id, stepOf(tree, draft, weights.get(id) ?? [])] as const);
  return { first, steps: Object.fromEntries(steps) };
}

/** A step being written: where each result of its test leads, and the units that come that way. */
interface Draft {
  readonly test: string;
  readonly branches: { readonly go: string; readonly units: number }[];
}

/** By step the weights of its branches; they come to what the branches that lead to it have, as far as few digits do. */
function weightsOf(
  first: string,
  drafts: ReadonlyMap<string, Draft>,
): ReadonlyMap<string, readonly number[]> {
  const coming = new Map([[first, UNITS]]);
  const written = new Map<string, readonly number[]>();
  for (const id of onward(first, drafts)) {
    const branches = drafts.get(id)?.branches ?? [];
    const weights = tidyWeights(
      branches.map(({ units }) => units),
      coming.get(id) ?? 0,
    );
    written.set(id, weights);
    branches.forEach(({ go }, at) => coming.set(go, (coming.get(go) ?? 0) + (weights[at] ?? 0)));
  }
  return written;
}

/** The steps being written, each after all that lead to it. */
function onward(first: string, drafts: ReadonlyMap<string, Draft>): readonly string[] {
  const passed = new Set<string>();
  const order: string[] = [];
  const pass = (id: string): void => {
    const draft = drafts.get(id);
    if (draft === undefined || passed.has(id)) return;
    passed.add(id);
    for (const { go } of draft.branches) pass(go);
    order.push(id);
  };
  pass(first);
  return order.reverse();
}

function stepOf(tree: Tree, { test, branches }: Draft, weights: readonly number[]): Step {
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const then = branches.map(({ go }, at): [string, Step['then'][string]] => [
    results[at] ?? '',
    { go, weight: weights[at] ?? 0 },
  ]);
  return { test, then: Object.fromEntries(then) };
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

function goOf({ symptom, step }: FormerPolicy['spot'], symptomId: string): string {
  return symptom === symptomId ? step : `symptom:${symptom}/${step}`;
}

/** The same text for parts that do the same. */
function shapes(symptomId: string): (policy: Policy) => string {
  const known = new Map<Policy, string>();
  const shapeOf = (policy: Policy): string => {
    if (policy.kind === 'finding') return `=${policy.finding}`;
    if (policy.kind === 'former') return goOf(policy.spot, symptomId);
    const had = known.get(policy);
    if (had !== undefined) return had;
    const made = `${policy.test}(${policy.branches.map(({ then }) => shapeOf(then)).join()})`;
    known.set(policy, made);
    return made;
  };
  return shapeOf;
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

/**
 * Gives out step ids: a former step's of the same test that is not kept, else the test's own, numbered where it is taken. The
 * steps that findings' bare `otherwise` name are taken, or they would come to mean another.
 */
function namer(tree: Tree, { steps }: Symptom, kept: ReadonlySet<string>): (test: string) => string {
  const taken = new Set([
    ...kept,
    ...Object.values(tree.findings).flatMap(({ otherwise }) => otherwise ?? []),
  ]);
  const former = Object.entries(steps).filter(([id]) => !kept.has(id));
  return (test) => {
    const again = former.find(([id, step]) => step.test === test && !taken.has(id))?.[0];
    let id = again ?? test;
    for (let number = 2; taken.has(id); number += 1) id = numbered(test, number);
    taken.add(id);
    return id;
  };
}

const LONGEST_ID = 80;

function numbered(test: string, number: number): string {
  const end = `-${String(number)}`;
  return `${test.slice(0, LONGEST_ID - end.length).replace(/-+$/, '')}${end}`;
}
