import type { Belief } from './belief.ts';
import type { FaultModel } from './fault-model.ts';

/** How likely a test's result is now. */
export interface BranchLikelihood {
  readonly result: string;
  readonly probability: number;
  /** Confirmed jobs in which the test gave this result, whatever the finding. */
  readonly jobs: number;
}

/**
 * P(r|evidence) = sum over f of P(f|evidence) P(r|f,t), `unlisted` included, for each result of a test in document order
 * (DESIGN section 4, Branch likelihood). Sums to one.
 */
export function branchLikelihoods(
  model: FaultModel,
  belief: Belief,
  test: string,
): readonly BranchLikelihood[] {
  const { results, probability, jobs } = model.test(test);
  const rows = belief.findings.map((held) => ({ ...held, at: model.row(held.finding) * results.length }));
  return results.map((result, column) => ({
    result,
    probability: rows.reduce((sum, held) => sum + held.probability * (probability[held.at + column] ?? 0), 0),
    jobs: jobs[column] ?? 0,
  }));
}
