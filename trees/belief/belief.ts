import { own } from '../document/index.ts';
import type { Evidence, Observation } from './evidence.ts';
import type { FaultModel } from './fault-model.ts';
import type { TestModel } from './test-model.ts';

/** How likely each finding is. */
export interface Belief {
  /** Most likely first, ties in the tree's order; `unlisted` is among them, and the probabilities sum to one. */
  readonly findings: readonly FindingBelief[];
  /** The evidence fits nothing in the tree, so that all that is left is `unlisted`. */
  readonly impossible: boolean;
}

export interface FindingBelief {
  readonly finding: string;
  readonly probability: number;
  /** n(s,f): confirmed jobs that came with this symptom and had this finding. */
  readonly jobs: number;
}

/**
 * P(f|evidence) for one symptom (DESIGN section 4, Belief): the prior times, for each test made, the sum over its results
 * of w(r) P(r|f,t), times 1 - fix rate for each finding whose remedy did not mend the unit. The order of the evidence
 * does not matter.
 */
export function beliefOf(model: FaultModel, symptom: string, evidence: Evidence): Belief {
  const { probability, impossible } = probabilitiesOf(model, symptom, evidence);
  const { jobs } = model.prior(symptom);
  const findings = model.findings
    .map((finding, row) => ({ finding, probability: probability[row] ?? 0, jobs: jobs[row] ?? 0 }))
    .sort((a, b) => b.probability - a.probability);
  return { findings, impossible };
}

/**
 * {@link beliefOf} as a bare table in the fault model's order, for arithmetic over many pieces of evidence. Worked in
 * logarithms, so that no number of tests underflows.
 */
export function probabilitiesOf(
  model: FaultModel,
  symptom: string,
  evidence: Evidence,
): { readonly probability: Float64Array; readonly impossible: boolean } {
  const logarithm = model.prior(symptom).probability.map(Math.log);
  for (const observation of evidence.observations)
    observe(logarithm, model.test(observation.test), observation);
  for (const finding of evidence.failed) {
    const row = model.row(finding);
    logarithm[row] = (logarithm[row] ?? 0) + Math.log1p(-model.fixRate(finding));
  }
  return normalised(logarithm);
}

function observe(logarithm: Float64Array, test: TestModel, { weights }: Observation): void {
  const k = test.results.length;
  const weight = test.results.map((result) => own(weights, result) ?? 0);
  const certain = weight.filter((value) => value > 0).length === 1 ? weight.indexOf(1) : -1;
  const known = certain >= 0 ? test.logarithm : null;
  for (let row = 0; row < logarithm.length; row += 1) {
    const at = row * k;
    const term = known !== null ? known[at + certain] : Math.log(weighted(test.probability, at, weight));
    logarithm[row] = (logarithm[row] ?? 0) + (term ?? 0);
  }
}

function weighted(probability: Float64Array, at: number, weight: readonly number[]): number {
  let total = 0;
  for (let column = 0; column < weight.length; column += 1) {
    total += (weight[column] ?? 0) * (probability[at + column] ?? 0);
  }
  return total;
}

/** Exponentials scaled by the largest, to sum to one. `unlisted` is the last row. */
function normalised(logarithm: Float64Array): { probability: Float64Array; impossible: boolean } {
  let largest = -Infinity;
  for (const value of logarithm) largest = Math.max(largest, value);
  if (largest === -Infinity) {
    const probability = new Float64Array(logarithm.length);
    probability[probability.length - 1] = 1;
    return { probability, impossible: true };
  }
  const probability = logarithm.map((value) => Math.exp(value - largest));
  let total = 0;
  for (const value of probability) total += value;
  return { probability: probability.map((value) => value / total), impossible: false };
}
