import type { PathStep, Tree } from '../document/index.ts';
import type { JobState } from './job.ts';
import type { StepRef } from './standing.ts';

/** Bench state: axis id to state id, for every axis of the tree. */
export type Bench = Readonly<Record<string, string>>;

/** What the job knows, how the unit stands on the bench, and the findings passed on the way here. */
export interface Situation {
  readonly job: JobState;
  readonly bench: Bench;
  /** Findings whose remedy did not mend and that the course has gone past since it last set out from the path's start. */
  readonly passed: readonly string[];
}

/** A step that the course left the path at, and the one where it met the path again; null while it has not. */
export interface Leaving {
  readonly from: StepRef;
  readonly to: PathStep | null;
}

/** The machine's context: the situation, and where the course left the path since it last set out, in order. */
export interface CourseSituation extends Situation {
  readonly leavings: readonly Leaving[];
}

/** A job before anything was done: nothing known, every axis at its start. */
export function firstSituation(tree: Tree, symptom: string): Situation {
  const starts = Object.entries(tree.bench).map(([axis, { start }]): [string, string] => [axis, start]);
  return {
    job: { symptom, answers: [], skips: [], remedies: [], era: 0 },
    bench: Object.fromEntries(starts),
    passed: [],
  };
}
