import { destination, own, type Step, type Tree } from '../../../trees/document/index.ts';
import { numberedSteps, type NumberedStep } from './numbered-steps.ts';

/** By step, then result: the share of the units that a symptom brings in which pass the branch, 0..1. */
export type BranchShares = ReadonlyMap<string, ReadonlyMap<string, number>>;

/**
 * What the authors' weights say of where a symptom's units go: one unit sent down from the start splits at every step by
 * its branches' weights. A branch that leads back along a loop passes nothing on.
 */
export function authoredShares(tree: Tree, symptom: string): BranchShares {
  const path = own(tree.symptoms, symptom);
  if (path?.first === undefined) return NO_SHARES;
  const steps = numberedSteps(tree, symptom);
  const known = made.get(path);
  if (known?.steps === steps) return known.shares;
  const shares = sharesDown(path, path.first, symptom, steps);
  made.set(path, { steps, shares });
  return shares;
}

const NO_SHARES: BranchShares = new Map();
/** The same shares are given again while the path and the order of its steps are the same. */
const made = new WeakMap<Path, { readonly steps: readonly NumberedStep[]; readonly shares: BranchShares }>();
type Path = Tree['symptoms'][string];

function sharesDown(
  path: Path,
  first: string,
  symptom: string,
  steps: readonly NumberedStep[],
): BranchShares {
  const shares = new Map<string, ReadonlyMap<string, number>>();
  const inflow = new Map([[first, 1]]);
  for (const { step, reached } of steps) {
    const flow = inflow.get(step) ?? 0;
    if (!reached || flow === 0) continue;
    inflow.delete(step);
    const passing = split(own(path.steps, step), flow);
    shares.set(step, passing);
    for (const [result, share] of passing) {
      const lead = destination(own(path.steps, step)?.then[result]?.go ?? '', symptom);
      if (lead.kind === 'step' && lead.symptom === symptom && !shares.has(lead.step))
        inflow.set(lead.step, (inflow.get(lead.step) ?? 0) + share);
    }
  }
  return shares;
}

function split(step: Step | undefined, flow: number): ReadonlyMap<string, number> {
  const branches = Object.entries(step?.then ?? {});
  const total = branches.reduce((sum, [, { weight }]) => sum + weight, 0);
  return new Map(branches.map(([result, { weight }]) => [result, total > 0 ? (flow * weight) / total : 0]));
}
