import type { FaultModel } from '../belief/index.ts';
import { own } from '../document/index.ts';
import { startEvaluation, type Goal } from '../plan/index.ts';
import type { SymptomMinutes } from './figures.ts';

/** More states than this are not looked into for one symptom and goal. */
export const MOST_STATES_EXPECTED = 50_000;

/**
 * What the tree expects of a symptom's path, with the fault model's history: minutes to the finding and to the proven repair,
 * without the price of parts. Null where the symptom has no path, or where `evaluate` does not finish within
 * {@link MOST_STATES_EXPECTED} states.
 */
export function expectedMinutes(model: FaultModel, symptom: string): SymptomMinutes['expected'] {
  if (own(model.tree.symptoms, symptom)?.first === undefined) return null;
  const toFinding = minutesOf(model, symptom, 'isolate');
  const toProof = toFinding === null ? null : minutesOf(model, symptom, 'fix');
  return toFinding === null || toProof === null ? null : { toFinding, toProof };
}

function minutesOf(model: FaultModel, symptom: string, goal: Goal): number | null {
  const evaluation = startEvaluation({ model, symptom, goal, rate: null })(MOST_STATES_EXPECTED);
  return evaluation === null ? null : evaluation.expectedMinutes;
}
