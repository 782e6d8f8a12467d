import { courseOf, type Course } from './course.ts';
import type { PathStep } from './path.ts';
import type { Tree } from './tree.ts';

/** A step of a path, named. */
type Named = Pick<PathStep, 'symptom' | 'step'>;

/** Where the path is met again after a step, given which tests have an answer; null where no step that has one follows. */
export type Meetings = (after: Named, isAnswered: (test: string) => boolean) => PathStep | null;

/** Two flows closer than this, relatively, are the same but for rounding. */
const ROUNDING = 1e-9;

/**
 * Where a tree's paths are met again once a step is left out. One unit of flow is sent down from that step, splitting by
 * the branches' weights, also into other symptoms' paths; it goes no further than the first answered step on each way. Of
 * those steps it is the one that most of the flow comes to; the first in onward order among equals.
 * Laying the tree out costs its steps once, each question its steps again. For trees the checker passes.
 */
export function meetingsOf(tree: Tree): Meetings {
  const course = courseOf(tree);
  return ({ symptom, step }, isAnswered) => {
    const from = course.lead(`symptom:${symptom}/${step}`, symptom);
    const met = from.kind === 'step' ? meetingAfter(course, from.index, isAnswered) : undefined;
    const place = met === undefined ? undefined : course.steps[met];
    return place === undefined ? null : { symptom: place.symptom, step: place.step, test: place.test };
  };
}

function meetingAfter(
  course: Course,
  from: number,
  isAnswered: (test: string) => boolean,
): number | undefined {
  const inflow = new Float64Array(course.steps.length);
  const isReached = new Uint8Array(course.steps.length);
  inflow[from] = isReached[from] = 1;
  let met: { readonly index: number; readonly flow: number } | undefined;
  for (const index of course.order) {
    const step = course.steps[index];
    if (isReached[index] !== 1 || step === undefined) continue;
    const flow = inflow[index] ?? 0;
    if (index !== from && isAnswered(step.test)) {
      if (met === undefined || flow > met.flow * (1 + ROUNDING)) met = { index, flow };
      continue;
    }
    for (const { share, lead } of step.branches) {
      if (lead.kind !== 'step') continue;
      isReached[lead.index] = 1;
      inflow[lead.index] = (inflow[lead.index] ?? 0) + flow * share;
    }
  }
  return met?.index;
}
