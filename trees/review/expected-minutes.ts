import { compileFaultModel, NO_HISTORY, type FaultModel } from '../belief/index.ts';
import { own, type Tree } from '../document/index.ts';
import { startEvaluation, type Goal } from '../plan/index.ts';
import type { SymptomMinutes } from './figures.ts';

/** Mean minutes to the finding and to the end of the repair. */
export type ExpectedMinutes = NonNullable<SymptomMinutes['expected']>;

/** The number of the arithmetic here; to be raised whenever it, or an evaluation, comes to give other minutes, as they are kept. */
export const EXPECTED_BY = 1;

/** More states than this are not looked into for one symptom and goal. */
export const MOST_STATES_EXPECTED = 50_000;

/**
 * What a tree expects of a symptom's path as its author wrote it: mean minutes to the finding and to the end of the repair, of
 * time at the bench alone: neither the price of parts nor `escalate`, what passing a unit on costs elsewhere, is in them. Null where
 * the symptom has no path, or where `evaluate` does not finish within {@link MOST_STATES_EXPECTED} states.
 */
export function expectedMinutes(tree: Tree, symptom: string): ExpectedMinutes | null {
  if (own(tree.symptoms, symptom)?.first === undefined) return null;
  const model = compileFaultModel({ ...tree, defaults: { ...tree.defaults, escalate: 0 } }, NO_HISTORY);
  const toFinding = minutesOf(model, symptom, 'isolate');
  const toProof = toFinding === null ? null : minutesOf(model, symptom, 'fix');
  return toFinding === null || toProof === null ? null : { toFinding, toProof };
}

function minutesOf(model: FaultModel, symptom: string, goal: Goal): number | null {
  const evaluation = startEvaluation({ model, symptom, goal, rate: null })(MOST_STATES_EXPECTED);
  return evaluation === null ? null : evaluation.expectedMinutes;
}
