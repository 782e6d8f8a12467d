import type { FaultModel } from '../belief/index.ts';
import type { Bench, JobState } from '../chart/index.ts';

/** What a plan is for: to know the finding, or to have the unit mended (or passed on). */
export type Goal = 'isolate' | 'fix';

/** A question to the planner: where a job stands, and what is wanted of it. */
export interface PlanQuestion {
  readonly model: FaultModel;
  readonly goal: Goal;
  /** What the job knows: its symptom, the answers that stand, tests left out, remedies that did not mend. */
  readonly job: JobState;
  /** How the unit stands on the bench: axis to state. */
  readonly bench: Bench;
  /** The shop's hourly rate, in the currency of the parts' prices; null: parts do not count. */
  readonly rate: number | null;
}
