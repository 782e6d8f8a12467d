import { courseOf, type Course, type Lead } from './course.ts';
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
}

/**
 * The flows of a tree: each symptom's unit splits at every step by the branches' weights. Steps are taken in onward
 * order, so steps shared by many ways cost no more than others: steps x (symptoms + findings) in all.
 * For trees the checker passes; what leads nowhere or round in a loop is left out.
 */
export function flows(tree: Tree): Flows {
  const course = courseOf(tree);
  const { arriving, through } = arrivals(course, Object.keys(tree.symptoms));
  const passing = new Map<string, Map<string, readonly number[]>>();
  for (const finding of Object.keys(tree.findings)) {
    const table = passingTo(course, through, finding);
    for (const test of course.slots.keys()) {
      const flow = passedTest(course, table, test);
      if (flow === undefined) continue;
      const byFinding = passing.get(test);
      if (byFinding === undefined) passing.set(test, new Map([[finding, flow]]));
      else byFinding.set(finding, flow);
    }
  }
  return { arriving, passing };
}

/** F(f) for every symptom, and the flow `through` each step of the course, of all symptoms' units together. */
export function arrivals(
  course: Course,
  symptoms: readonly string[],
): { readonly arriving: Flows['arriving']; readonly through: Float64Array } {
  const through = new Float64Array(course.steps.length);
  const arriving = new Map(symptoms.map((symptom) => [symptom, arrivalsOf(course, symptom, through)]));
  return { arriving, through };
}

/** The part of {@link Flows.passing} that ends in one finding, numbered as {@link Course.slots}. */
export function passingTo(course: Course, through: Float64Array, finding: string): Float64Array {
  const table = new Float64Array([...course.slots.values()].at(-1)?.end ?? 0);
  const reaching = new Float64Array(course.steps.length);
  for (let turn = course.order.length - 1; turn >= 0; turn -= 1) {
    const index = course.order[turn] ?? 0;
    for (const { slot, share, lead } of course.steps[index]?.branches ?? []) {
      const onward = share * reachingFrom(lead, reaching, finding);
      if (onward === 0) continue;
      reaching[index] = (reaching[index] ?? 0) + onward;
      if (slot >= 0) table[slot] = (table[slot] ?? 0) + (through[index] ?? 0) * onward;
    }
  }
  return table;
}

/** One test's flow out of {@link passingTo}'s table, in the order of its results; undefined where there is none. */
export function passedTest(course: Course, table: Float64Array, test: string): readonly number[] | undefined {
  const { start, end } = course.slots.get(test) ?? { start: 0, end: 0 };
  let total = 0;
  for (let slot = start; slot < end; slot += 1) total += table[slot] ?? 0;
  if (total === 0) return undefined;
  const flow: number[] = [];
  for (let slot = start; slot < end; slot += 1) flow.push(table[slot] ?? 0);
  return flow;
}

function reachingFrom(lead: Lead, reaching: Float64Array, finding: string): number {
  if (lead.kind === 'step') return reaching[lead.index] ?? 0;
  return lead.kind === 'finding' && lead.finding === finding ? 1 : 0;
}

function arrivalsOf(course: Course, symptom: string, through: Float64Array): ReadonlyMap<string, number> {
  const arriving = new Map<string, number>();
  const first = course.firsts.get(symptom);
  if (first === undefined) return arriving;
  const inflow = new Float64Array(course.steps.length);
  inflow[first] = 1;
  for (const index of course.order) {
    const flow = inflow[index] ?? 0;
    if (flow === 0) continue;
    through[index] = (through[index] ?? 0) + flow;
    for (const { share, lead } of course.steps[index]?.branches ?? []) {
      if (lead.kind === 'step') inflow[lead.index] = (inflow[lead.index] ?? 0) + flow * share;
      if (lead.kind === 'finding')
        arriving.set(lead.finding, (arriving.get(lead.finding) ?? 0) + flow * share);
    }
  }
  return arriving;
}
