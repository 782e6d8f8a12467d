import { courseOf, type Course } from './course.ts';
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
    for (const [test, flow] of passingTo(tree, course, through, finding)) {
      const byFinding = passing.get(test) ?? new Map<string, readonly number[]>();
      passing.set(test, byFinding.set(finding, flow));
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

/** The part of {@link Flows.passing} that ends in one finding, by test; only tests with some flow are in it. */
export function passingTo(
  tree: Tree,
  course: Course,
  through: Float64Array,
  finding: string,
): ReadonlyMap<string, readonly number[]> {
  const passing = new Map<string, number[]>();
  const reaching = new Float64Array(course.steps.length);
  for (let place = course.order.length - 1; place >= 0; place -= 1) {
    const index = course.order[place] ?? 0;
    const step = course.steps[index];
    for (const { result, share, lead } of step?.branches ?? []) {
      const onward = lead.kind === 'step' ? (reaching[lead.index] ?? 0) : Number(isFinding(lead, finding));
      if (step === undefined || share * onward === 0) continue;
      reaching[index] = (reaching[index] ?? 0) + share * onward;
      addFlow(tree, passing, step.test, result, (through[index] ?? 0) * share * onward);
    }
  }
  return passing;
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

function isFinding(lead: Course['steps'][number]['branches'][number]['lead'], finding: string): boolean {
  return lead.kind === 'finding' && lead.finding === finding;
}

function addFlow(
  tree: Tree,
  passing: Map<string, number[]>,
  test: string,
  result: string,
  flow: number,
): void {
  if (flow === 0) return;
  const results = Object.keys(tree.tests[test]?.results ?? {});
  const byResult = passing.get(test) ?? results.map(() => 0);
  const place = results.indexOf(result);
  if (place < 0) return;
  byResult[place] = (byResult[place] ?? 0) + flow;
  passing.set(test, byResult);
}
