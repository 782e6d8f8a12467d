import { own, UNLISTED, type Needs, type Tree } from '../document/index.ts';
import { answerTo, soundResult } from './answers.ts';
import type { Answer, JobState, RemedyState, RemedyTried } from './job.ts';
import type { Situation } from './situation.ts';
import { wayToTest, type Move } from './way.ts';

/** The remedy that the job is about now: in hand, being proved, or proved to have mended. */
export function remedyNow(job: JobState): RemedyTried | undefined {
  const last = job.remedies.at(-1);
  return last !== undefined && ['in-hand', 'proving', 'mended'].includes(last.state) ? last : undefined;
}

/** Whether the job's present remedy is in this state. */
export function isRemedy(job: JobState, state: RemedyState): boolean {
  return remedyNow(job)?.state === state;
}

/** How the last attempt at a finding's remedy stands. */
export function remedyState(job: JobState, finding: string): RemedyState | undefined {
  return job.remedies.findLast((remedy) => remedy.finding === finding)?.state;
}

/** The job with its last remedy changed. */
export function withLast(job: JobState, change: (remedy: RemedyTried) => RemedyTried): JobState {
  const last = job.remedies.at(-1);
  return last === undefined ? job : { ...job, remedies: [...job.remedies.slice(0, -1), change(last)] };
}

/**
 * The tests that prove a remedy: the finding's own, else (none named, or a cause outside the tree) those whose answer in
 * the evidence was not what a sound unit gives.
 */
export function proofTests(tree: Tree, finding: string, evidence: readonly Answer[]): readonly string[] {
  const named = finding === UNLISTED ? [] : (own(tree.findings, finding)?.prove ?? []);
  if (named.length > 0) return named;
  return evidence.filter(({ test, result }) => !isSound(tree, test, result)).map(({ test }) => test);
}

/** The job with the proofs of its present remedy taken from the answers given since it was done. */
export function withProofs(job: JobState): JobState {
  if (!isRemedy(job, 'proving')) return job;
  return withLast(job, (remedy) => ({ ...remedy, proofs: proofsNow(job, remedy.prove) }));
}

/** How far the proof is: the next test and the move towards it, `passed`, or `failed`. */
export type ProofProgress =
  { readonly kind: 'next'; readonly move: Move } | { readonly kind: 'passed' } | { readonly kind: 'failed' };

/** A proof fails by any result that is not the first, and by an interlock on its way that does not open. */
export function proofProgress(tree: Tree, at: Situation): ProofProgress {
  const remedy = remedyNow(at.job);
  if (remedy === undefined) return { kind: 'failed' };
  if (remedy.proofs.some(({ test, result }) => !isSound(tree, test, result))) return { kind: 'failed' };
  const next = nextProof(remedy);
  if (next === undefined) return { kind: 'passed' };
  const move = wayToTest(tree, at, next, { kind: 'proof', finding: remedy.finding });
  return move.kind === 'barred' ? { kind: 'failed' } : { kind: 'next', move };
}

/** Bench state that the next test of the proof needs. */
export function proofNeeds(tree: Tree, job: JobState): Needs {
  const remedy = remedyNow(job);
  return own(tree.tests, (remedy && nextProof(remedy)) ?? '')?.needs ?? {};
}

/** The test of the proof that comes next; undefined where all have been made. */
export function nextProof({ prove, proofs }: RemedyTried): string | undefined {
  return prove.find((test) => !proofs.some((proof) => proof.test === test));
}

function proofsNow(job: JobState, prove: readonly string[]): readonly Answer[] {
  return prove.flatMap((test) => {
    const answer = answerTo(job, test);
    return answer !== undefined && answer.era === job.era ? [answer] : [];
  });
}

function isSound(tree: Tree, id: string, result: string): boolean {
  const test = own(tree.tests, id);
  return test !== undefined && soundResult(test) === result;
}
