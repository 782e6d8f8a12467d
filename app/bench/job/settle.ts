import {
  beliefOf,
  branchLikelihoods,
  chosen,
  type Belief,
  type BranchLikelihood,
  type Evidence,
  type FaultModel,
} from '../../../trees/belief/index.ts';

/** What one result of a test would do: how likely it is, and the finding that would then lead. */
export interface Settling {
  readonly result: string;
  readonly probability: number;
  readonly jobs: number;
  readonly leads: { readonly finding: string; readonly probability: number };
}

/**
 * For each result of a test, in document order: its likelihood, by the belief unless it is given, and what the belief would be
 * after it.
 */
export function settlings(
  model: FaultModel,
  symptom: string,
  evidence: Evidence,
  belief: Belief,
  test: string,
  likelihoods: readonly BranchLikelihood[] = branchLikelihoods(model, belief, test),
): readonly Settling[] {
  return likelihoods.map((branch) => {
    const after = beliefOf(model, symptom, withResult(evidence, test, branch.result));
    const [first] = after.findings;
    return { ...branch, leads: { finding: first?.finding ?? '', probability: first?.probability ?? 0 } };
  });
}

/**
 * How far a test would move the belief: the expected share of probability that changes hands (half the summed
 * differences, averaged over its results), 0..1. Sorts the tests offered out of order.
 */
export function moves(
  model: FaultModel,
  symptom: string,
  evidence: Evidence,
  belief: Belief,
  test: string,
): number {
  const before = new Map(belief.findings.map(({ finding, probability }) => [finding, probability]));
  return branchLikelihoods(model, belief, test).reduce((sum, { result, probability }) => {
    const after = beliefOf(model, symptom, withResult(evidence, test, result));
    const moved = after.findings.reduce(
      (total, held) => total + Math.abs(held.probability - (before.get(held.finding) ?? 0)),
      0,
    );
    return sum + (probability * moved) / 2;
  }, 0);
}

function withResult(evidence: Evidence, test: string, result: string): Evidence {
  const others = evidence.observations.filter((observation) => observation.test !== test);
  return { ...evidence, observations: [...others, chosen(test, result)] };
}
