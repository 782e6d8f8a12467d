import { meetingsOf, type Meetings, type PathStep, type Tree } from '../document/index.ts';
import type { JobState } from './job.ts';
import type { CourseSituation } from './situation.ts';
import type { StepRef } from './standing.ts';

/** Trees are laid out for their first step that is left out, most never; what is kept follows from the tree alone. */
const laidOut = new WeakMap<Tree, Meetings>();

/**
 * The step where the path is met again once this one is left out: of the steps with an answer that follow from it, the
 * one that {@link meetingsOf} says. `also` counts as answered too. Null while the path is not met again.
 */
export function metAgain(tree: Tree, job: JobState, left: StepRef, also?: string): PathStep | null {
  const meetings = laidOut.get(tree) ?? meetingsOf(tree);
  laidOut.set(tree, meetings);
  const answered = new Set(job.answers.map(({ test }) => test));
  return meetings(left, (test) => test === also || answered.has(test));
}

/** Whether the course, having left the path last, met it again at this step. */
export function isMetAt({ leavings }: CourseSituation, step: StepRef): boolean {
  const to = leavings.at(-1)?.to ?? null;
  return to !== null && isSame(to, step);
}

/** Whether, once this test has an answer too, the course would have met the path elsewhere than it did. */
export function meetsElsewhere(tree: Tree, { job, leavings }: CourseSituation, test: string): boolean {
  return leavings.some(({ from, to }) => {
    const met = metAgain(tree, job, from, test);
    return to === null || met === null ? met !== to : !isSame(met, to);
  });
}

function isSame(one: StepRef, other: StepRef): boolean {
  return one.step === other.step && one.symptom === other.symptom;
}
