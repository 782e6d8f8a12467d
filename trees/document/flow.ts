import { courseOf, type Course } from './course.ts';
import { passedTest, passingFrom, passingTo } from './passing.ts';
import { passingShares } from './passing-shares.ts';
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
  /** Of one test, what share of its entries of {@link Flows.passing} leaves by each result, without all of that having to be there. */
  readonly sharesAt: (test: string) => SharesInto;
}

/**
 * Writes the shares by result of what passes a test and ends in a finding, told by its place among the tree's; false, and nothing
 * written, where nothing passes.
 */
export type SharesInto = (shares: Float64Array, finding: number) => boolean;

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
  let within: Flows['sharesAt'] | null = null;
  const passing = (): Flows['passing'] => (all ??= allPassing(course, findings));
  return {
    arriving,
    get passing() {
      return passing();
    },
    sharesAt(test) {
      within ??= sharesWithin(course, findings);
      if (within !== null) return within(test);
      const byFinding = passing().get(test);
      return (shares, finding) => sharesOf(shares, byFinding?.get(findings[finding] ?? '') ?? [], 0);
    },
  };
}

/** The shares out of the table of all; null where that is too large. */
function sharesWithin(course: Course, findings: readonly string[]): Flows['sharesAt'] | null {
  const all = passingShares(course, findings.length);
  if (all === null) return null;
  const { shares: table, isFlowing, slots, tests } = all;
  const rows = rowsOf(findings, all.findings);
  const places = new Map([...course.slots].map(([test, { start }], place) => [test, { start, place }]));
  return (test) => {
    const at = places.get(test);
    if (at === undefined) return () => false;
    const { start, place } = at;
    return (shares, finding) => {
      const row = rows[finding] ?? -1;
      if (row < 0 || isFlowing[row * tests + place] !== 1) return false;
      const from = row * slots + start;
      for (let slot = 0; slot < shares.length; slot += 1) shares[slot] = table[from + slot] ?? 0;
      return true;
    };
  };
}

/** By place among the tree's findings the row of a table of those that a branch leads to, -1 of the others. */
function rowsOf(findings: readonly string[], numbers: ReadonlyMap<string, number>): Int32Array {
  return Int32Array.from(findings, (finding) => numbers.get(finding) ?? -1);
}

/**
 * {@link flows} for whoever asks for few of the tests: each one's share is worked out by itself when it is first asked for, and kept
 * with the tree's course.
 */
export function flowsOfFew(tree: Tree): Flows {
  const course = courseOf(tree);
  const all = flows(tree);
  const findings = Object.keys(tree.findings);
  const known = leaving.get(course) ?? new Map<string, SharesInto>();
  leaving.set(course, known);
  return {
    arriving: all.arriving,
    get passing() {
      return all.passing;
    },
    sharesAt(test) {
      const made = known.get(test) ?? sharesLeaving(course, test, findings);
      known.set(test, made);
      return made;
    },
  };
}

const leaving = new WeakMap<Course, Map<string, SharesInto>>();

function sharesLeaving(course: Course, test: string, findings: readonly string[]): SharesInto {
  const range = course.slots.get(test);
  if (range === undefined) return () => false;
  const { flow, rows: numbers } = passingFrom(course, range);
  const rows = rowsOf(findings, numbers);
  return (shares, finding) => {
    const row = rows[finding] ?? -1;
    return row >= 0 && sharesOf(shares, flow, row * shares.length);
  };
}

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
