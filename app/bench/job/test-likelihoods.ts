import {
  branchLikelihoods,
  proofLikelihoods,
  type Belief,
  type BranchLikelihood,
  type FaultModel,
} from '../../../trees/belief/index.ts';
import type { Standing } from '../../../trees/chart/index.ts';

/** How likely a test's results are as a job stands: while a remedy is being proved, of a unit that it may have mended. */
export function testLikelihoods(
  { model, belief, standing }: { model: FaultModel; belief: Belief; standing: Standing },
  test: string,
): readonly BranchLikelihood[] {
  return proofLikelihoods(model, standing.job, test) ?? branchLikelihoods(model, belief, test);
}
