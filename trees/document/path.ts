import { courseOf } from './course.ts';
import type { Tree } from './tree.ts';

/** A step of a path, the symptom whose path it belongs to, and its test. */
export interface PathStep {
  readonly symptom: string;
  readonly step: string;
  readonly test: string;
}

/**
 * The steps that can be come to from a symptom, each before those it leads to; those of other symptoms that the path
 * goes on in are among them. Empty for a symptom without a path.
 */
export function stepsOf(tree: Tree, symptom: string): readonly PathStep[] {
  const course = courseOf(tree);
  const first = course.firsts.get(symptom);
  const reached = new Set<number>(first === undefined ? [] : [first]);
  for (const index of course.order) {
    if (!reached.has(index)) continue;
    for (const { lead } of course.steps[index]?.branches ?? [])
      if (lead.kind === 'step') reached.add(lead.index);
  }
  return course.order.flatMap((index) => {
    const step = course.steps[index];
    return step === undefined || !reached.has(index)
      ? []
      : [{ symptom: step.symptom, step: step.step, test: step.test }];
  });
}
