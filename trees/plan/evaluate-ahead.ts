import type { Place } from '../chart/index.ts';
import { courseOf, own, type Course, type Tree } from '../document/index.ts';

type Lead = ReturnType<Course['lead']>;
type Step = Course['steps'][number];

/** Which tests the course may still ask from a place, as a test of an id; and how far onward a place is. */
export interface Ahead {
  readonly asks: (place: Place) => (test: string) => boolean;
  /** Higher the further onward; a finding or the path's end is further than any step. */
  readonly turn: (place: Place) => number;
}

/** What lies ahead on the paths of a tree while no remedy has been tried: the steps that can be come to, no others. */
export function stepsAhead(tree: Tree): Ahead {
  const course = courseOf(tree);
  const sets = testsAhead(course);
  const turns = new Map(course.order.map((index, turn) => [nameOf(course.steps[index]), turn]));
  const indices = new Map(course.steps.map((step, index) => [nameOf(step), index]));
  const name = (place: Place) => (place.kind === 'step' ? `${place.step.symptom}/${place.step.step}` : '');
  return {
    asks: (place) => sets(indices.get(name(place))),
    turn: (place) => turns.get(name(place)) ?? course.order.length,
  };
}

/** Steps that a symptom's path can come to, also where a finding's remedy does not mend and leads on. */
export function stepsWithin(tree: Tree, symptom: string): readonly Step[] {
  const { steps, firsts, lead } = courseOf(tree);
  const reached = new Set<number>();
  const findings = new Set<string>();
  const go = (to: Lead): void => {
    if (to.kind === 'step' && !reached.has(to.index)) {
      reached.add(to.index);
      steps[to.index]?.branches.forEach((branch) => go(branch.lead));
    }
    if (to.kind === 'finding' && !findings.has(to.finding)) {
      findings.add(to.finding);
      const otherwise = own(tree.findings, to.finding)?.otherwise;
      if (otherwise !== undefined) go(lead(otherwise, symptom));
    }
  };
  const first = firsts.get(symptom);
  if (first !== undefined) go({ kind: 'step', index: first });
  return [...reached].flatMap((index) => steps[index] ?? []);
}

function nameOf(step: Step | undefined): string {
  return `${step?.symptom ?? ''}/${step?.step ?? ''}`;
}

/** By step: whether a test is asked at it or at a step that can be come to from it. None ahead of no step. */
function testsAhead({ steps, order }: Course): (index: number | undefined) => (test: string) => boolean {
  const numbers = new Map<string, number>();
  for (const { test } of steps) if (!numbers.has(test)) numbers.set(test, numbers.size);
  const words = Math.ceil(numbers.size / 32);
  const sets = new Map<number, Uint32Array>();
  for (const index of order.toReversed()) {
    const set = new Uint32Array(words);
    const { test = '', branches = [] } = steps[index] ?? {};
    add(set, numbers.get(test) ?? 0);
    for (const { lead } of branches) {
      const onward = lead.kind === 'step' ? sets.get(lead.index) : undefined;
      onward?.forEach((word, place) => (set[place] = (set[place] ?? 0) | word));
    }
    sets.set(index, set);
  }
  return (index) => {
    const set = index === undefined ? undefined : sets.get(index);
    return (test) => {
      const number = numbers.get(test);
      return set !== undefined && number !== undefined && holds(set, number);
    };
  };
}

function add(set: Uint32Array, number: number): void {
  set[number >>> 5] = (set[number >>> 5] ?? 0) | (1 << (number & 31));
}

function holds(set: Uint32Array, number: number): boolean {
  return (((set[number >>> 5] ?? 0) >>> (number & 31)) & 1) === 1;
}
