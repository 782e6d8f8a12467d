import type { Course } from '../document/index.ts';

/** A step as a unit can stand at it: what its test gave where it was met before. */
export interface PathState {
  /** The step's number in the course. */
  readonly step: number;
  /** The place of the result that its test gave earlier on the way; -1 where it is made here. */
  readonly known: number;
  /** By the place of a result the number of the next state; -1 where the way ends. */
  readonly next: Int32Array;
}

/** All states of a tree's paths, each before those it leads to. */
export interface PathStates {
  readonly states: readonly PathState[];
  /** By symptom that has a path the number of its first state. */
  readonly firsts: ReadonlyMap<string, number>;
  /** A test that is met again on a way keeps its first answer; where there are too many ways for that, it is made anew. */
  readonly keepsAnswers: boolean;
}

/** A tree with more than this is gone through step by step. */
const MOST_STATES = 20_000;

/** Lays out the ways down a course. Only tests that can be met again are told apart by what they gave. */
export function pathStates(course: Course): PathStates {
  const again = metAgain(course);
  const kept = layOut(course, again);
  if (kept !== null) return { ...kept, keepsAnswers: true };
  const none = again.map(() => new Set<string>());
  return { ...(layOut(course, none) ?? { states: [], firsts: new Map() }), keepsAnswers: false };
}

/** By step: of the tests met there or later, those that some way meets twice. */
function metAgain({ steps, order }: Course): readonly ReadonlySet<string>[] {
  const met = steps.map(() => new Set<string>());
  const twice = new Set<string>();
  for (const index of order.toReversed()) {
    const tests = met[index];
    const { test = '', branches = [] } = steps[index] ?? {};
    for (const { lead } of branches)
      if (lead.kind === 'step') for (const later of met[lead.index] ?? []) tests?.add(later);
    if (tests?.has(test) === true) twice.add(test);
    tests?.add(test);
  }
  return met.map((tests) => new Set([...tests].filter((test) => twice.has(test))));
}

/** The places of the results that tests gave which can be met again. */
type Answers = ReadonlyMap<string, number>;

interface Making {
  readonly step: number;
  readonly answers: Answers;
  /** Its number, once it is laid. */
  place: number;
  next: readonly (Making | null)[];
}

function layOut(
  course: Course,
  again: readonly ReadonlySet<string>[],
): Omit<PathStates, 'keepsAnswers'> | null {
  const waiting = course.steps.map(() => new Map<string, Making>());
  let count = 0;
  const at = (step: number, answers: Answers): Making => {
    const kept = new Map([...answers].filter(([test]) => again[step]?.has(test)).sort());
    const key = [...kept].join();
    const known = waiting[step]?.get(key);
    if (known !== undefined) return known;
    const made = { step, answers: kept, place: -1, next: [] };
    waiting[step]?.set(key, made);
    count += 1;
    return made;
  };
  const starts = [...course.firsts].map(([symptom, step]) => [symptom, at(step, new Map())] as const);
  const laid: Making[] = [];
  for (const step of course.order) {
    for (const making of waiting[step]?.values() ?? []) {
      if (count > MOST_STATES) return null;
      making.place = laid.length;
      making.next = onwardFrom(course, making, again[step]?.has(course.steps[step]?.test ?? '') === true, at);
      laid.push(making);
    }
  }
  const firsts = new Map(starts.map(([symptom, { place }]) => [symptom, place]));
  return { states: laid.map((making) => stateOf(course, making)), firsts };
}

function onwardFrom(
  course: Course,
  { step, answers }: Making,
  isKept: boolean,
  at: (step: number, answers: Answers) => Making,
): readonly (Making | null)[] {
  const { test = '', branches = [] } = course.steps[step] ?? {};
  const { start = 0, end = 0 } = course.slots.get(test) ?? {};
  const known = answers.get(test);
  const next: (Making | null)[] = Array.from({ length: end - start }, () => null);
  for (const { slot, lead } of branches) {
    const place = slot - start;
    if (slot < 0 || lead.kind !== 'step' || (known !== undefined && known !== place)) continue;
    next[place] = at(lead.index, isKept ? new Map([...answers, [test, place]]) : answers);
  }
  return next;
}

function stateOf({ steps }: Course, { step, answers, next }: Making): PathState {
  const test = steps[step]?.test ?? '';
  return {
    step,
    known: answers.get(test) ?? -1,
    next: Int32Array.from(next, (state) => state?.place ?? -1),
  };
}
