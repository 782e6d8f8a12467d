import {
  checkTree,
  courseOf,
  own,
  type Course,
  type Step,
  type Symptom,
  type Tree,
} from '../document/index.ts';
import { withPath } from './carry-over.ts';
import { withLent } from './lent.ts';
import type { Path } from './path.ts';
import { ledToFromElsewhere, onwardOf, strandedSteps, stepsIn } from './stranded.ts';

/** A part of a proposal that can be taken by itself: another first step, or another step in the place of one of the same id. */
export interface ProposedPart {
  /** `first`, or `step:ID`. */
  readonly id: string;
  /** The step that is another now; null for the path's beginning. */
  readonly step: string | null;
  /** Parts, by id, that come with it: those it leads to. */
  readonly needs: readonly string[];
}

const FIRST = 'first';

/**
 * What a proposed path does otherwise than the former one, part by part. A part needs all parts that can be come to from it in the
 * proposed path, so that a path of which some parts are taken goes on as proposed wherever it has come to one of them, and
 * cannot go round in a loop. New steps come with the parts that lead to them. Parts are in the former path's order, its beginning last.
 */
export function partsOf(tree: Tree, proposed: Tree, symptomId: string): readonly ProposedPart[] {
  const [former, now] = [tree, proposed].map((one) => own(one.symptoms, symptomId));
  if (former === undefined || now === undefined) return [];
  const others = Object.entries(former.steps)
    .filter(([id, step]) => Object.hasOwn(now.steps, id) && !isSame(step, now.steps[id]))
    .map(([id]) => id);
  const course = courseOf(proposed);
  const needsFrom = (step: string): readonly string[] => {
    const reached = reachedFrom(course, symptomId, step);
    return others.filter((id) => reached.has(id)).map(partId);
  };
  const parts = others.map((step) => {
    const id = partId(step);
    return { id, step, needs: needsFrom(step).filter((one) => one !== id) };
  });
  if (former.first === now.first || now.first === undefined) return parts;
  return [...parts, { id: FIRST, step: null, needs: needsFrom(now.first) }];
}

/** The parts taken and all that they need. */
export function withNeeds(parts: readonly ProposedPart[], taken: Iterable<string>): ReadonlySet<string> {
  const all = new Set(taken);
  for (const { id, needs } of parts) if (all.has(id)) needs.forEach((need) => all.add(need));
  return all;
}

/**
 * The tree with some parts of a proposal taken, those they need included: the proposed tree where that is all of them, the tree as
 * it is where it is none. Steps that nothing comes to any more go with it. What followed from the former path alone is written out, as in a proposal. Null where the mixture would
 * have an error, as where another symptom goes on in it and comes to a finding that sends it on to a step it does not have.
 */
export function withParts(
  tree: Tree,
  proposed: Tree,
  symptomId: string,
  taken: Iterable<string>,
): Tree | null {
  const parts = partsOf(tree, proposed, symptomId);
  const all = withNeeds(parts, taken);
  if (all.size === 0) return tree;
  if (parts.every(({ id }) => all.has(id))) return proposed;
  const [former, now] = [tree, proposed].map((one) => own(one.symptoms, symptomId));
  if (former?.first === undefined || now?.first === undefined) return null;
  const first = all.has(FIRST) ? now.first : former.first;
  const path = { first, steps: mixedSteps(tree, symptomId, [former, now], first, all) };
  const mixed = withoutStranded(tree, symptomId, withLent(tree, symptomId, path));
  return checkTree(mixed).every(({ severity }) => severity !== 'error') ? mixed : null;
}

/**
 * The former steps that a tree with parts taken has no more, by part: those that its step, or the path's beginning, led to, and on
 * from there to such steps alone. A step that several parts led to is told with each of them.
 */
export function goneWith(
  tree: Tree,
  taken: Tree,
  symptomId: string,
  parts: Iterable<string>,
): ReadonlyMap<string, readonly string[]> {
  const former = own(tree.symptoms, symptomId);
  const now = own(taken.symptoms, symptomId)?.steps ?? {};
  const steps = former?.steps ?? {};
  const isGone = (id: string): boolean => Object.hasOwn(steps, id) && !Object.hasOwn(now, id);
  const gone = [...parts].map((part): [string, readonly string[]] => {
    const led = part === FIRST ? [former?.first ?? ''] : onwardOf(steps, part.slice(STEP.length), symptomId);
    const all = new Set(led.filter(isGone));
    for (const id of all)
      onwardOf(steps, id, symptomId)
        .filter(isGone)
        .forEach((next) => all.add(next));
    return [part, [...all]];
  });
  return new Map(gone.filter(([, all]) => all.length > 0));
}

/** A tree with a path from which the steps are taken out that nothing comes to in it any more. */
function withoutStranded(tree: Tree, symptomId: string, path: Path): Tree {
  const mixed = withPath(tree, symptomId, path);
  const stranded = strandedSteps(tree, mixed, symptomId);
  if (stranded.size === 0) return mixed;
  const steps = Object.entries(path.steps).filter(([id]) => !stranded.has(id));
  return withPath(tree, symptomId, { first: path.first, steps: Object.fromEntries(steps) });
}

const STEP = 'step:';

function partId(step: string): string {
  return `${STEP}${step}`;
}

function isSame(one: Step, other: Step | undefined): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** Steps of the symptom that can be come to from one of them, itself included, other symptoms' paths gone through too. */
function reachedFrom(course: Course, symptom: string, step: string): ReadonlySet<string> {
  const start = course.lead(`symptom:${symptom}/${step}`, symptom);
  const reached = new Set<number>(start.kind === 'step' ? [start.index] : []);
  for (const index of reached)
    for (const { lead } of course.steps[index]?.branches ?? [])
      if (lead.kind === 'step') reached.add(lead.index);
  const steps = [...reached].flatMap((index) => course.steps[index] ?? []);
  return new Set(steps.flatMap((one) => (one.symptom === symptom ? [one.step] : [])));
}

/** The former steps with those taken in their places, and of the steps that only one of the paths has those that are led to. */
function mixedSteps(
  tree: Tree,
  symptomId: string,
  [former, now]: readonly [Symptom, Symptom],
  first: string,
  taken: ReadonlySet<string>,
): Path['steps'] {
  const stepOf = (id: string): Step | undefined =>
    taken.has(partId(id)) ? now.steps[id] : (own(former.steps, id) ?? own(now.steps, id));
  const stays = Object.keys(former.steps).filter((id) => Object.hasOwn(now.steps, id));
  const wanted = new Set([...stays, first, ...ledToFromElsewhere(tree, symptomId)]);
  for (const id of wanted)
    for (const { go } of Object.values(stepOf(id)?.then ?? {}))
      for (const step of stepsIn(go, symptomId)) wanted.add(step);
  const order = [...Object.keys(now.steps), ...Object.keys(former.steps)];
  const ids = new Set(order.filter((id) => wanted.has(id)));
  return Object.fromEntries(
    [...ids].flatMap((id): [string, Step][] => {
      const step = stepOf(id);
      return step === undefined ? [] : [[id, step]];
    }),
  );
}
