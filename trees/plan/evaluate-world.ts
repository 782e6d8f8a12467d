import type { FaultModel } from '../belief/index.ts';
import { own, type Tree } from '../document/index.ts';
import type { EvaluateQuestion } from './evaluate.ts';
import type { Goal } from './question.ts';

/** What an evaluation goes by, laid out for arithmetic. */
export interface World {
  readonly model: FaultModel;
  readonly tree: Tree;
  readonly symptom: string;
  readonly goal: Goal;
  /** P(f|s) in the model's order, and last, at {@link mended}, the share of mended units: none at first. */
  readonly prior: Float64Array;
  /** The row of the units that have been mended, after those of the findings. */
  readonly mended: number;
  /** Minutes that a remedy's work and its parts count for. */
  readonly remedyMinutes: (finding: string) => number;
}

export function worldOf({ model, tree = model.tree, symptom, goal, rate }: EvaluateQuestion): World {
  const { probability } = model.prior(symptom);
  const prior = new Float64Array(probability.length + 1);
  prior.set(probability);
  const remedyMinutes = (finding: string): number => {
    const { minutes, parts } = own(tree.findings, finding)?.remedy ?? { minutes: 0, parts: [] };
    const price = parts.reduce((sum, part) => sum + part.price, 0);
    return minutes + (rate === null ? 0 : (price * 60) / rate);
  };
  return { model, tree, symptom, goal, prior, mended: probability.length, remedyMinutes };
}
