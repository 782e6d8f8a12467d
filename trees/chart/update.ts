import { own, type Tree } from '../document/index.ts';
import { contradicts, toAnswer } from './answers.ts';
import type { JobEvent, JobEventKind } from './event.ts';
import type { Answer, JobState } from './job.ts';
import { proofTests, withLast, withProofs } from './remedy.ts';
import { corrected, settled } from './rewrite.ts';

type EventOf<K extends JobEventKind> = JobEvent & { readonly kind: K };

/** What an accepted event does to what the job knows. Events that only move the course or the bench leave it alone. */
export function updated(tree: Tree, job: JobState, event: JobEvent): JobState {
  switch (event.kind) {
    case 'answer':
      return answered(tree, job, event);
    case 'correct':
      return corrected(tree, job, event);
    case 'settle':
      return settled(tree, job, event.result);
    case 'skip':
      return skipped(job, event);
    case 'start-remedy':
      return remedyStarted(tree, job, event);
    case 'remedy-done':
      return remedyDone(tree, job);
    case 'give-up-remedy':
      return withLast(job, (remedy) => ({ ...remedy, state: 'given-up', reason: event.reason }));
    case 'close':
      return { ...job, outcome: event.outcome, ...(event.note === undefined ? {} : { note: event.note }) };
    case 'turn-to':
    case 'turn-back':
    case 'change':
    case 'take-back':
      return job;
  }
}

function answered(tree: Tree, job: JobState, event: EventOf<'answer'>): JobState {
  const answer = toAnswer(tree, job, event, job.era);
  return contradicts(job, event.test, event.result)
    ? { ...job, contradiction: answer }
    : withProofs(recorded(job, answer));
}

/** An answer takes the place of the one before and of a skip: what was measured wins over what was assumed. */
function recorded(job: JobState, answer: Answer): JobState {
  return {
    ...job,
    answers: [...job.answers.filter(({ test }) => test !== answer.test), answer],
    skips: job.skips.filter(({ test }) => test !== answer.test),
  };
}

function skipped(job: JobState, { test, as, reason }: EventOf<'skip'>): JobState {
  const skip = { test, reason, ...(as === undefined ? {} : { as }) };
  return { ...job, skips: [...job.skips.filter((one) => one.test !== test), skip] };
}

function remedyStarted(tree: Tree, job: JobState, { finding, what }: EventOf<'start-remedy'>): JobState {
  const remedy = {
    finding,
    ...(what === undefined ? {} : { what }),
    state: 'in-hand' as const,
    evidence: job.answers,
    prove: proofTests(tree, finding, job.answers),
    proofs: [],
  };
  return { ...job, remedies: [...job.remedies, remedy] };
}

/** A new era: what the remedy disturbed is no longer known, and no answer from before it opens an interlock. */
function remedyDone(tree: Tree, job: JobState): JobState {
  const finding = job.remedies.at(-1)?.finding ?? '';
  const disturbed = own(tree.findings, finding)?.remedy.disturbs ?? [];
  const answers = job.answers.filter(({ test }) => !disturbed.includes(test));
  return withLast({ ...job, answers, era: job.era + 1 }, (remedy) => ({ ...remedy, state: 'proving' }));
}
