import { flows, own, type Tree } from '../../../trees/document/index.ts';

/** p(f|s): how the authors expect a symptom’s units to share among the findings, before any history and without `unlisted`. */
export function priorShares(tree: Tree, symptom: string | null): ReadonlyMap<string, number> {
  const asked = own(tree.symptoms, symptom ?? '');
  if (asked === undefined || symptom === null) return new Map();
  const weights = Object.entries(asked.weights);
  if (weights.length === 0) return flows(tree).arriving.get(symptom) ?? new Map();
  const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
  return new Map(weights.map(([finding, weight]) => [finding, total > 0 ? weight / total : 0]));
}
