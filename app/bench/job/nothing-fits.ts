import {
  worstFit,
  type Belief,
  type Evidence,
  type FaultModel,
  type WorstFit,
} from '../../../trees/belief/index.ts';
import type { Act, Answer, Standing } from '../../../trees/chart/index.ts';
import { UNLISTED } from '../../../trees/document/index.ts';

/** Something not in the tree leads: how likely it is, and which answer speaks most for it. */
export interface NothingFits {
  /** P(unlisted | evidence), 0..1. */
  readonly unlisted: number;
  /** Null where no single answer stands out. */
  readonly worst: (WorstFit & { readonly answer: Answer }) | null;
  /** The act now is that test, or on the way to it. */
  readonly asked: boolean;
}

/**
 * Whether what was answered fits nothing in the tree: null before there is any evidence, where a finding of the tree
 * leads, and where there is nothing more to choose (two answers wait to be settled, something not in the tree is being
 * mended, the unit is mended, the job is closed).
 */
export function nothingFits(
  model: FaultModel,
  { act, job }: Standing,
  evidence: Evidence,
  belief: Belief,
): NothingFits | null {
  const [leader] = belief.findings;
  if (leader?.finding !== UNLISTED || evidence.observations.length + evidence.failed.length === 0)
    return null;
  if (act.kind === 'closed' || act.kind === 'mended' || act.kind === 'contradiction') return null;
  const remedy = job.remedies.at(-1);
  if (remedy?.finding === UNLISTED && (remedy.state === 'in-hand' || remedy.state === 'proving')) return null;
  const fit = worstFit(model, job.symptom, evidence);
  const answer = job.answers.find(({ test }) => test === fit?.test);
  const worst = fit === null || answer === undefined ? null : { ...fit, answer };
  return { unlisted: leader.probability, worst, asked: worst !== null && asksFor(act, worst.test) };
}

function asksFor(act: Act, test: string): boolean {
  if (act.kind === 'test') {
    if (act.test === test) return true;
    return 'wanted' in act.purpose && act.purpose.wanted.kind === 'test' && act.purpose.wanted.test === test;
  }
  return act.kind === 'change' && act.wanted.kind === 'test' && act.wanted.test === test;
}
