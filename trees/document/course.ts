import { destination, type Destination } from './destination.ts';
import { haveSameIds, haveSameResults } from './names.ts';
import { reweighed, sharesOf } from './reweighed.ts';
import type { Branch, Step, Tree } from './tree.ts';

/** Where a branch leads once looked up: an index into {@link Course.steps}, a finding, or no such place. */
export type Lead =
  | { readonly kind: 'step'; readonly index: number }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'nowhere' };

export interface CourseBranch {
  readonly result: string;
  /** The result's place in {@link Course.slots}' numbering; -1 where the test has no such result. */
  readonly slot: number;
  /** Share of the step's flow that leaves here; 0 at every branch where the step's weights sum to nothing. */
  readonly share: number;
  readonly lead: Lead;
}

export interface CourseStep {
  readonly symptom: string;
  readonly step: string;
  readonly test: string;
  readonly branches: readonly CourseBranch[];
}

/** All paths of a tree as one graph of numbered steps, since a path may go on in another's. */
export interface Course {
  readonly steps: readonly CourseStep[];
  /** Index of the step where a symptom's path starts; symptoms without a path are not in it. */
  readonly firsts: ReadonlyMap<string, number>;
  /**
   * Step indices in an order in which every branch leads onward. Steps on a loop, or only after one, are not in it. Courses that
   * differ in nothing but their shares have the same one by identity, where an edit has made the one tree of the other.
   */
  readonly order: readonly number[];
  /** Numbers all results of all tests in their order: by test its first and the number after its last. */
  readonly slots: ReadonlyMap<string, { readonly start: number; readonly end: number }>;
  /** Looks up a `go` or `otherwise` as written in `symptom`'s path. */
  readonly lead: (go: string, symptom: string) => Lead;
}

/**
 * Lays out the paths of a tree. Takes unchecked trees: what leads nowhere is said to, and loops only shorten `order`. Trees that
 * share their symptoms and have the same findings, tests and results by id get the same course, as those are all it goes by.
 */
export function courseOf(tree: Tree): Course {
  const known = laidOut.get(tree.symptoms);
  const isKnown = known !== undefined && isSameBy(known, tree);
  const course = isKnown ? known.course : (reweighedOf(tree) ?? layOut(tree));
  const { symptoms, findings, tests } = tree;
  const made = { symptoms, findings, tests, course };
  laidOut.set(symptoms, made);
  lastAmong.set(findings, made);
  return course;
}

/** What a course was laid out from. */
interface LaidOut extends Pick<Tree, 'symptoms' | 'findings' | 'tests'> {
  readonly course: Course;
}

// A tree that is being edited changes by texts and minutes far more often than by what its paths go by.
const laidOut = new WeakMap<Tree['symptoms'], LaidOut>();
/** By the findings, what was laid out last: an edit of a weight leaves them alone. */
const lastAmong = new WeakMap<Tree['findings'], LaidOut>();

function reweighedOf(tree: Tree): Course | null {
  const former = lastAmong.get(tree.findings);
  if (former === undefined || !isSameBy(former, tree)) return null;
  return reweighed(former.course, former.symptoms, tree.symptoms);
}

function isSameBy(known: LaidOut, { findings, tests }: Tree): boolean {
  return (
    (known.findings === findings || haveSameIds(known.findings, findings)) &&
    (known.tests === tests || haveSameResults(known.tests, tests))
  );
}

function layOut(tree: Tree): Course {
  const indices = new Map<string, number>();
  const named: { symptom: string; id: string; step: Step }[] = [];
  for (const [symptom, { steps }] of Object.entries(tree.symptoms)) {
    for (const [id, step] of Object.entries(steps)) {
      indices.set(stepKey(symptom, id), named.length);
      named.push({ symptom, id, step });
    }
  }
  const lead = (go: string, symptom: string): Lead => leadOf(tree, indices, destination(go, symptom));
  const slots = slotsOf(tree);
  const steps = named.map(({ symptom, id, step }) => ({
    symptom,
    step: id,
    test: step.test,
    branches: branchesOf(step, slotsIn(tree, slots, step.test), (go) => lead(go, symptom)),
  }));
  return { steps, firsts: firstsOf(tree, indices), order: onwardOrder(steps), slots, lead };
}

function stepKey(symptom: string, step: string): string {
  return `${symptom}/${step}`;
}

function leadOf(tree: Tree, indices: ReadonlyMap<string, number>, place: Destination): Lead {
  if (place.kind === 'finding') {
    return Object.hasOwn(tree.findings, place.finding)
      ? { kind: 'finding', finding: place.finding }
      : { kind: 'nowhere' };
  }
  const step = place.kind === 'step' ? place.step : firstOf(tree, place.symptom);
  const index = step === undefined ? undefined : indices.get(stepKey(place.symptom, step));
  return index === undefined ? { kind: 'nowhere' } : { kind: 'step', index };
}

function firstOf(tree: Tree, symptom: string): string | undefined {
  return Object.hasOwn(tree.symptoms, symptom) ? tree.symptoms[symptom]?.first : undefined;
}

function firstsOf(tree: Tree, indices: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const firsts = new Map<string, number>();
  for (const [symptom, { first }] of Object.entries(tree.symptoms)) {
    const index = first === undefined ? undefined : indices.get(stepKey(symptom, first));
    if (index !== undefined) firsts.set(symptom, index);
  }
  return firsts;
}

function slotsOf(tree: Tree): Course['slots'] {
  let end = 0;
  return new Map(
    Object.entries(tree.tests).map(([id, { results }]) => {
      const start = end;
      end += Object.keys(results).length;
      return [id, { start, end }];
    }),
  );
}

function slotsIn(tree: Tree, slots: Course['slots'], test: string): ReadonlyMap<string, number> {
  const start = slots.get(test)?.start;
  const results = start === undefined ? [] : Object.keys(tree.tests[test]?.results ?? {});
  return new Map(results.map((result, place) => [result, (start ?? 0) + place]));
}

function branchesOf(
  step: Step,
  slots: ReadonlyMap<string, number>,
  lead: (go: string) => Lead,
): readonly CourseBranch[] {
  const branches: [string, Branch][] = Object.entries(step.then);
  const shares = sharesOf(step);
  return branches.map(([result, { go }], place) => ({
    result,
    slot: slots.get(result) ?? -1,
    share: shares[place] ?? 0,
    lead: lead(go),
  }));
}

/** Kahn's algorithm: a step is laid down once every step leading to it has been. */
function onwardOrder(steps: readonly CourseStep[]): readonly number[] {
  const waiting = new Int32Array(steps.length);
  for (const { branches } of steps) {
    for (const { lead } of branches)
      if (lead.kind === 'step') waiting[lead.index] = (waiting[lead.index] ?? 0) + 1;
  }
  const order = steps.flatMap((_, index) => (waiting[index] === 0 ? [index] : []));
  for (let next = 0; next < order.length; next += 1) {
    for (const { lead } of steps[order[next] ?? -1]?.branches ?? []) {
      if (lead.kind !== 'step') continue;
      waiting[lead.index] = (waiting[lead.index] ?? 0) - 1;
      if (waiting[lead.index] === 0) order.push(lead.index);
    }
  }
  return order;
}
