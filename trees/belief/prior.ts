import { own, UNLISTED, type Flows, type Tree } from '../document/index.ts';
import type { History } from './history.ts';

/** What is thought of a symptom before any test: by finding, in the fault model's order (`unlisted` last). */
export interface Prior {
  /** P(f|s); sums to one. */
  readonly probability: Float64Array;
  /** n(s,f), confirmed jobs. */
  readonly jobs: Float64Array;
}

/**
 * P(f|s) = (S p(f|s) + n(s,f)) / (S + n(s)), the posterior mean of a Dirichlet with prior S p(f|s)
 * (DESIGN section 4, Prior). p(f|s) is the symptom's normalised `weights`, where it has none the flow that arrives at the finding,
 * scaled to leave `unlisted` its share. Jobs confirmed for a finding that the tree no longer has do not count.
 */
export function priorOf(
  tree: Tree,
  flows: Flows,
  history: History,
  findings: readonly string[],
  symptom: string,
): Prior {
  const { strength, unlisted } = tree.defaults;
  const counted = own(history.findings, symptom) ?? {};
  const jobs = Float64Array.from(findings, (finding) => own(counted, finding) ?? 0);
  const total = strength + sum(jobs);
  const share = authored(tree, flows, symptom);
  const probability = Float64Array.from(findings, (finding, index) => {
    const expected = finding === UNLISTED ? unlisted : (1 - unlisted) * share(finding);
    return (strength * expected + (jobs[index] ?? 0)) / total;
  });
  return { probability, jobs };
}

function authored(tree: Tree, flows: Flows, symptom: string): (finding: string) => number {
  const weights = own(tree.symptoms, symptom)?.weights ?? {};
  if (Object.keys(weights).length === 0) return (finding) => flows.arriving.get(symptom)?.get(finding) ?? 0;
  const total = sum(Object.values(weights));
  return (finding) => (own(weights, finding) ?? 0) / total;
}

function sum(values: Iterable<number>): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
