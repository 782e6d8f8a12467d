import { UNLISTED } from '../document/index.ts';
import { beliefOf, type Belief, type FindingBelief } from './belief.ts';
import type { Evidence, Observation } from './evidence.ts';
import type { FaultModel } from './fault-model.ts';

/** The one test whose observation speaks most for something that is not in the tree. */
export interface WorstFit {
  readonly test: string;
  /** P(unlisted | evidence). */
  readonly unlisted: number;
  /** P(unlisted | evidence without this test's observation); less than `unlisted`. */
  readonly without: number;
  /** The finding that would lead without it, which may still be `unlisted`. */
  readonly leader: FindingBelief;
}

/**
 * Which observation fits the tree worst where `unlisted` leads, by leaving one out: with e the evidence and o(t) the
 * observation of test t, the t that makes P(unlisted | e) - P(unlisted | e without o(t)) largest, P as in {@link beliefOf}.
 * Of tests that are equal in that, the first in the tree's order; the order of the evidence does not matter. Null where
 * `unlisted` does not lead, there is no observation, or leaving none out makes `unlisted` less likely (the prior or the
 * failed remedies alone speak for it, or two answers each rule the whole tree out).
 */
export function worstFit(model: FaultModel, symptom: string, evidence: Evidence): WorstFit | null {
  const observations = inTreeOrder(model, evidence.observations);
  const whole = beliefOf(model, symptom, { ...evidence, observations });
  if (whole.findings[0]?.finding !== UNLISTED) return null;
  let worst: WorstFit | null = null;
  let least = unlistedIn(whole);
  for (const left of observations) {
    const rest = observations.filter((one) => one !== left);
    const belief = beliefOf(model, symptom, { ...evidence, observations: rest });
    const [leader] = belief.findings;
    const without = unlistedIn(belief);
    if (leader === undefined || without >= least) continue;
    least = without;
    worst = { test: left.test, unlisted: unlistedIn(whole), without, leader };
  }
  return worst;
}

/** In one order, sums of logarithms round alike, and equal fits stay equal. */
function inTreeOrder({ tree }: FaultModel, observations: readonly Observation[]): readonly Observation[] {
  const place = new Map(Object.keys(tree.tests).map((test, at) => [test, at]));
  return observations.toSorted((a, b) => (place.get(a.test) ?? 0) - (place.get(b.test) ?? 0));
}

function unlistedIn({ findings }: Belief): number {
  return findings.find(({ finding }) => finding === UNLISTED)?.probability ?? 0;
}
