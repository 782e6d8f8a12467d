import type { Belief, FaultModel } from '../belief/index.ts';
import type { PlanTest } from './problem.ts';

/**
 * What a test is expected to tell of the finding, in bits: the entropy of the belief less the expected entropy after the
 * test, also called mutual information (Quinlan 1986, Machine Learning 1:81-106; Mitchell 1997, Machine Learning, 3.4.2).
 */
export function informationGain(model: FaultModel, belief: Belief, test: string): number {
  const { results, probability } = model.test(test);
  const rows = belief.findings.map((held) => ({ share: held.probability, row: model.row(held.finding) }));
  let gain = entropyBits(rows.map(({ share }) => share));
  for (let column = 0; column < results.length; column += 1) {
    const joint = rows.map(({ share, row }) => share * (probability[row * results.length + column] ?? 0));
    const total = joint.reduce((sum, value) => sum + value, 0);
    if (total > 0) gain -= total * entropyBits(joint.map((value) => value / total));
  }
  return gain;
}

/** The entropy of a distribution, in bits. */
export function entropyBits(shares: Iterable<number>): number {
  let entropy = 0;
  for (const share of shares) if (share > 0) entropy -= share * Math.log2(share);
  return entropy;
}

/** What a test in numbers is expected to tell of the finding, in bits: the entropy of its results less what is noise. */
export function gainBits({ table, noise, results }: PlanTest, belief: Float64Array): number {
  const findings = belief.length;
  let gain = 0;
  for (let result = 0; result < results; result += 1) {
    let likelihood = 0;
    for (let row = 0; row < findings; row += 1)
      likelihood += (belief[row] ?? 0) * (table[result * findings + row] ?? 0);
    if (likelihood > 0) gain -= likelihood * Math.log2(likelihood);
  }
  for (let row = 0; row < findings; row += 1) gain -= (belief[row] ?? 0) * (noise[row] ?? 0);
  return Math.max(0, gain);
}
