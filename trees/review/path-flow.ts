import type { FaultModel } from '../belief/index.ts';
import type { Course } from '../document/index.ts';
import type { PathStates } from './path-states.ts';

/** A state of a path laid out for arithmetic. */
export interface FlowState {
  /** The number of its test in {@link PathFlow.tests}. */
  readonly test: number;
  /** Where its step's results begin in tables of branches. */
  readonly base: number;
  readonly results: number;
  /** The place of the result that stands; -1 where the test is made. */
  readonly known: number;
  readonly next: Int32Array;
}

/** A tree's paths laid out for sending units down them. */
export interface PathFlow {
  readonly states: readonly FlowState[];
  /** The findings of the fault model, `unlisted` among them. */
  readonly findings: number;
  /** The symptoms that have a path, and the numbers of their first states. */
  readonly symptoms: readonly string[];
  readonly starts: readonly number[];
  /** The tests on the paths. */
  readonly tests: readonly string[];
  /** By the number of a step in the course, where its results begin in tables of branches; absent where no path leads there. */
  readonly bases: ReadonlyMap<number, number>;
  /** Entries of a table of branches. */
  readonly branches: number;
}

/** What a flow goes by. */
export interface Chances {
  /** By symptom the units that come with it, by finding. */
  readonly coming: readonly Float64Array[];
  /** By test P(r|f,t), row by finding. */
  readonly tests: readonly Float64Array[];
}

/** What has come of a flow; tables that are written anew with each. */
export interface Flowed {
  /** By state and finding the units that come to it. */
  readonly units: Float64Array;
  /** By branch the units that leave by it. */
  readonly leaving: Float64Array;
}

export function pathFlow(model: FaultModel, course: Course, { states, firsts }: PathStates): PathFlow {
  const tests = [...new Set(states.map(({ step }) => course.steps[step]?.test ?? ''))];
  const numbers = new Map(tests.map((test, number) => [test, number]));
  const bases = new Map<number, number>();
  let branches = 0;
  const laid = states.map(({ step, known, next }) => {
    const results = next.length;
    const base = bases.get(step) ?? branches;
    if (!bases.has(step)) {
      bases.set(step, base);
      branches += results;
    }
    const test = numbers.get(course.steps[step]?.test ?? '') ?? 0;
    return { test, base, results, known, next };
  });
  const [symptoms, starts] = [[...firsts.keys()], [...firsts.values()]];
  return { states: laid, findings: model.findings.length, symptoms, starts, tests, bases, branches };
}

/** Empty tables for a flow. */
export function flowed({ states, findings, branches }: PathFlow): Flowed {
  return { units: new Float64Array(states.length * findings), leaving: new Float64Array(branches) };
}

/** Sends the units of all symptoms down together. */
export function send(flow: PathFlow, chances: Chances, into: Flowed): void {
  const { states, findings, starts } = flow;
  into.units.fill(0);
  into.leaving.fill(0);
  starts.forEach((state, symptom) => {
    const coming = chances.coming[symptom];
    for (let row = 0; row < findings; row += 1) {
      const at = state * findings + row;
      into.units[at] = (into.units[at] ?? 0) + (coming?.[row] ?? 0);
    }
  });
  for (let at = 0; at < states.length; at += 1) {
    const state = states[at];
    if (state === undefined) continue;
    if (state.known < 0) split(state, at * findings, findings, chances.tests[state.test] ?? NONE, into);
    else pass(state, at * findings, findings, into);
  }
}

const NONE = new Float64Array();

/** The test is made: each finding's units leave by P(r|f,t). */
function split(state: FlowState, from: number, findings: number, table: Float64Array, into: Flowed): void {
  const { results, base, next } = state;
  const { units, leaving } = into;
  for (let result = 0; result < results; result += 1) {
    const to = (next[result] ?? -1) * findings;
    let sum = 0;
    for (let row = 0; row < findings; row += 1) {
      const gone = (units[from + row] ?? 0) * (table[row * results + result] ?? 0);
      sum += gone;
      if (to >= 0) units[to + row] = (units[to + row] ?? 0) + gone;
    }
    leaving[base + result] = (leaving[base + result] ?? 0) + sum;
  }
}

/** The test has been met before: all units leave by the result that stands. */
function pass({ known, base, next }: FlowState, from: number, findings: number, into: Flowed): void {
  const { units, leaving } = into;
  const to = (next[known] ?? -1) * findings;
  for (let row = 0; row < findings; row += 1) {
    const gone = units[from + row] ?? 0;
    leaving[base + known] = (leaving[base + known] ?? 0) + gone;
    if (to >= 0) units[to + row] = (units[to + row] ?? 0) + gone;
  }
}

/**
 * By branch the share of its step's units that leave by it. Where none can come there, each result is as likely as another, as
 * the bench has it where nothing in the tree fits.
 */
export function sharesOf({ states }: PathFlow, { leaving }: Flowed, shares: Float64Array): void {
  for (const { base, results } of states) {
    let all = 0;
    for (let result = 0; result < results; result += 1) all += leaving[base + result] ?? 0;
    for (let result = 0; result < results; result += 1)
      shares[base + result] = all > 0 ? (leaving[base + result] ?? 0) / all : 1 / results;
  }
}
