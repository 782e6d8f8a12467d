import type { Tree } from '../../document/index.ts';
import { state, type Element, type Way } from './element.ts';

/** Where the document starts: nothing but saying the symptom is taken here, and that begins the job. */
export function intake(tree: Tree): Element {
  return state('intake', {
    ways: Object.keys(tree.symptoms).map((symptom) => ({
      event: `symptom.${symptom}`,
      target: complaintId(symptom),
    })),
  });
}

/** The region that holds the job's symptom. It is entered at one of its states from {@link intake}, and stays there. */
export function complaintRegion(tree: Tree): Element {
  return state('complaint', {
    states: Object.keys(tree.symptoms).map((symptom) => state(complaintId(symptom))),
  });
}

/** The ways on from a state, by this event or else at once, where they hang on the job's symptom; one where all lead the same. */
export function byComplaint(targets: ReadonlyMap<string, string>, event?: string): readonly Way[] {
  const on = event === undefined ? {} : { event };
  const [[, shared] = [], ...others] = targets;
  if (shared !== undefined && others.every(([, target]) => target === shared)) {
    return [{ ...on, target: shared }];
  }
  return [...targets].map(([symptom, target]) => ({ ...on, in: complaintId(symptom), target }));
}

export function complaintId(symptom: string): string {
  return `complaint.${symptom}`;
}
