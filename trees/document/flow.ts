import { courseOf, type Course } from './course.ts';
import { keptTables, passedTest, passingFrom, passingTo, type LeavingFlow } from './passing.ts';
import type { Tree } from './tree.ts';

/** What the authors' weights say of a tree's paths, one unit of flow sent down from each symptom. */
export interface Flows {
  /** F(f) by symptom, then finding: the share of that symptom's unit that arrives. What is not listed is 0. */
  readonly arriving: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /**
   * By test, then finding: of all symptoms' units together, the flow that passes the test and ends in the finding, by
   * the result it leaves with (in the order of the test's results). What is not listed is 0 throughout. A path that
   * makes a test at two of its steps passes it twice.
   */
  readonly passing: ReadonlyMap<string, ReadonlyMap<string, readonly number[]>>;
  /**
   * Writes into `shares` what share of one entry of {@link Flows.passing} leaves by each result, without all of it having to be
   * there; false, and nothing written, where nothing passes.
   */
  readonly shareInto: (shares: Float64Array, test: string, finding: string) => boolean;
}

/**
 * The flows of a tree: each symptom's unit splits at every step by the branches' weights. Steps are taken in onward
 * order, so steps shared by many ways cost no more than others: steps x (symptoms + findings) in all; nothing for a tree whose
 * course they were worked out for before. For trees the checker passes; what leads nowhere or round in a loop is left out.
 */
export function flows(tree: Tree): Flows {
  const course = courseOf(tree);
  const known = flowing.get(course);
  if (known !== undefined) return known;
  const flow = flowsOf(course, Object.keys(tree.symptoms), Object.keys(tree.findings));
  flowing.set(course, flow);
  return flow;
}

// Trees of one course have the same symptoms, findings and weights.
const flowing = new WeakMap<Course, Flows>();

function flowsOf(course: Course, symptoms: readonly string[], findings: readonly string[]): Flows {
  const arriving = new Map(symptoms.map((symptom) => [symptom, arrivalsOf(course, symptom)]));
  let all: Flows['passing'] | null = null;
  const passing = (): Flows['passing'] => (all ??= allPassing(course, findings));
  const tables = keptTables(course, findings.length);
  return {
    arriving,
    get passing() {
      return passing();
    },
    shareInto(shares, test, finding) {
      if (tables === null) return sharesOf(shares, passing().get(test)?.get(finding) ?? [], 0);
      const start = course.slots.get(test)?.start;
      return start !== undefined && sharesOf(shares, tables(finding), start);
    },
  };
}

/**
 * {@link flows} for whoever asks for few of the tests: each one's share is worked out by itself when it is first asked for, and kept
 * with the tree's course.
 */
export function flowsOfFew(tree: Tree): Flows {
  const course = courseOf(tree);
  const all = flows(tree);
  const known = leaving.get(course) ?? new Map<string, LeavingFlow>();
  leaving.set(course, known);
  const leavingFrom = (test: string): LeavingFlow | null => {
    const had = known.get(test);
    const range = course.slots.get(test);
    if (had !== undefined || range === undefined) return had ?? null;
    const made = passingFrom(course, range);
    known.set(test, made);
    return made;
  };
  return {
    arriving: all.arriving,
    get passing() {
      return all.passing;
    },
    shareInto(shares, test, finding) {
      const from = leavingFrom(test);
      const row = from?.rows.get(finding);
      return from !== null && row !== undefined && sharesOf(shares, from.flow, row * shares.length);
    },
  };
}

const leaving = new WeakMap<Course, Map<string, LeavingFlow>>();

function allPassing(course: Course, findings: readonly string[]): Flows['passing'] {
  const slots = [...course.slots];
  const passing = new Map<string, Map<string, readonly number[]>>();
  for (const finding of findings) {
    const table = passingTo(course, finding);
    for (const [test, range] of slots) {
      const flow = passedTest(table, range);
      if (flow === undefined) continue;
      const byFinding = passing.get(test);
      if (byFinding === undefined) passing.set(test, new Map([[finding, flow]]));
      else byFinding.set(finding, flow);
    }
  }
  return passing;
}

/** What part of as many flows as there are shares, from a place on, each is. */
function sharesOf(shares: Float64Array, flow: ArrayLike<number>, from: number): boolean {
  let total = 0;
  for (let at = 0; at < shares.length; at += 1) total += flow[from + at] ?? 0;
  if (!(total > 0)) return false;
  for (let at = 0; at < shares.length; at += 1) shares[at] = (flow[from + at] ?? 0) / total;
  return true;
}

function arrivalsOf(course: Course, symptom: string): ReadonlyMap<string, number> {
  const arriving = new Map<string, number>();
  const first = course.firsts.get(symptom);
  if (first === undefined) return arriving;
  const inflow = new Float64Array(course.steps.length);
  inflow[first] = 1;
  for (const index of course.order) {
    const flow = inflow[index] ?? 0;
    if (flow === 0) continue;
    for (const { share, lead } of course.steps[index]?.branches ?? []) {
      if (lead.kind === 'step') inflow[lead.index] = (inflow[lead.index] ?? 0) + flow * share;
      if (lead.kind === 'finding')
        arriving.set(lead.finding, (arriving.get(lead.finding) ?? 0) + flow * share);
    }
  }
  return arriving;
}
