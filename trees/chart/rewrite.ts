import { own, referenceOf, resultOf, type Tree } from '../document/index.ts';
import { answerTo, toAnswer } from './answers.ts';
import type { JobEvent } from './event.ts';
import type { Answer, JobState } from './job.ts';
import { proofTests, withLast, withProofs } from './remedy.ts';

/** What becomes of an answer given earlier; null where it is no longer known. */
type Rewrite = (answer: Answer) => Answer | null;

/**
 * The job as if the mis-keyed answer had been given as it is now: wherever it stands, also in the evidence that led to a
 * remedy. Results of ratio bands taken against a corrected reading are sorted again, or dropped where they cannot be.
 */
export function corrected(tree: Tree, job: JobState, event: JobEvent & { kind: 'correct' }): JobState {
  const before = answerTo(job, event.test);
  if (before === undefined) return job;
  const after = toAnswer(tree, job, event, before.era);
  const { contradiction, ...rest } = job;
  const kept = contradiction === undefined || contradiction.test === event.test ? rest : job;
  return rewritten(tree, kept, event.test, (answer) => {
    if (isSame(answer, before)) return after;
    return dependsOn(tree, answer, before) ? sortedAgain(tree, answer, after) : answer;
  });
}

/**
 * The job once a contradiction is settled: the answer that stands, or neither. Results of ratio bands taken against a
 * rejected reading are dropped, since nobody knows what it should have been; they are asked again where needed.
 */
export function settled(tree: Tree, job: JobState, result: string | null): JobState {
  const { contradiction: second, ...rest } = job;
  const first = second === undefined ? undefined : answerTo(job, second.test);
  if (second === undefined || first === undefined) return job;
  if (result === first.result) return rest;
  const after = result === null ? null : second;
  return rewritten(tree, rest, second.test, (answer) => {
    if (isSame(answer, first)) return after;
    return dependsOn(tree, answer, first) ? null : answer;
  });
}

function rewritten(tree: Tree, job: JobState, test: string, rewrite: Rewrite): JobState {
  const all = (answers: readonly Answer[]) => answers.flatMap((answer) => rewrite(answer) ?? []);
  const remedies = job.remedies.map((remedy) => ({
    ...remedy,
    evidence: all(remedy.evidence),
    proofs: all(remedy.proofs),
  }));
  return reproved(tree, { ...job, answers: all(job.answers), remedies }, test);
}

/** The last remedy's proof, taken up again where the rewritten answer bears on it. */
function reproved(tree: Tree, job: JobState, test: string): JobState {
  const last = job.remedies.at(-1);
  if (last === undefined || last.state === 'given-up') return job;
  const prove = proofTests(tree, last.finding, last.evidence);
  if (last.state === 'in-hand') return withLast(job, (remedy) => ({ ...remedy, prove }));
  if (last.state === 'not-mended' && !bearsOnProof(tree, last.prove, test)) return job;
  return withProofs(withLast(job, (remedy) => ({ ...remedy, prove, state: 'proving' })));
}

function bearsOnProof(tree: Tree, prove: readonly string[], test: string): boolean {
  return prove.includes(test) || tree.interlocks.some(({ until }) => Object.hasOwn(until, test));
}

function isSame(one: Answer, other: Answer): boolean {
  return one.test === other.test && one.era === other.era;
}

function dependsOn(tree: Tree, answer: Answer, reference: Answer): boolean {
  const test = own(tree.tests, answer.test);
  if (test === undefined || referenceOf(test) !== reference.test) return false;
  return answer.reference !== undefined && answer.reference === reference.reading?.value;
}

function sortedAgain(tree: Tree, answer: Answer, { reading }: Answer): Answer | null {
  const test = own(tree.tests, answer.test);
  const reference = reading?.value;
  if (test === undefined || answer.reading === undefined || typeof reference !== 'number') return null;
  const held = resultOf(test, answer.reading.value, reference);
  return held.ok ? { ...answer, reference, result: held.result } : null;
}
