import { own, type Tree } from '../document/index.ts';
import type { JobEvent } from './event.ts';
import type { JobState } from './job.ts';
import type { Place } from './place.ts';
import { refuseAnswer, refuseCorrection, refuseSettling } from './refuse-answer.ts';
import { refuseChange } from './refuse-change.ts';
import { refuseDone, refuseGivingUp, refuseStart } from './refuse-remedy.ts';
import { refusal, refuseWork, resultTitles, testTitle, unknownTest } from './refusal.ts';
import type { Situation } from './situation.ts';
import type { Refusal } from './standing.ts';

/**
 * Why the chart does not take an event here, or null where it does. The machine's guards and the refusals a technician
 * reads are this one rule. `take-back` is the walk's, not the machine's.
 */
export function refuse(tree: Tree, at: Situation, place: Place, event: JobEvent): Refusal | null {
  if (at.job.outcome !== undefined && event.kind !== 'take-back') {
    return refusal('closed', 'The job is closed.', 'Take the closing back to go on with it.');
  }
  switch (event.kind) {
    case 'answer':
      return refuseAnswer(tree, at, event);
    case 'correct':
      return refuseCorrection(tree, at, event);
    case 'settle':
      return refuseSettling(tree, at.job, event.result);
    case 'skip':
      return refuseSkip(tree, at.job, place, event);
    case 'turn-to':
      return refuseTurning(tree, at.job, event.test);
    case 'turn-back':
      return place.kind === 'aside'
        ? null
        : refusal('not-aside', 'No test was turned to.', 'Go on with the act shown.');
    case 'change':
      return refuseChange(tree, at, event.axis, event.to);
    case 'start-remedy':
      return refuseStart(tree, at.job, event);
    case 'remedy-done':
      return refuseDone(tree, at);
    case 'give-up-remedy':
      return refuseGivingUp(tree, at.job);
    case 'close':
      return refuseClose(at.job, event.outcome);
    case 'take-back':
      return null;
  }
}

function refuseSkip(
  tree: Tree,
  job: JobState,
  place: Place,
  { test, as }: JobEvent & { kind: 'skip' },
): Refusal | null {
  const working = refuseWork(tree, job);
  if (working !== null) return working;
  const known = own(tree.tests, test);
  if (known === undefined) return unknownTest(test);
  const isHere = (place.kind === 'step' || place.kind === 'aside') && place.test === test;
  if (!isHere) return refuseSkipElsewhere(tree, place, test);
  if (job.answers.some((answer) => answer.test === test)) {
    return refusal(
      'already-answered',
      `“${known.title}” has an answer, and an answer wins over a skip.`,
      'Turn back to the path, or correct the answer.',
    );
  }
  return as === undefined || Object.hasOwn(known.results, as)
    ? null
    : refusal(
        'unknown-result',
        `“${as}” is no result of “${known.title}”.`,
        `Go on as ${resultTitles(known)}, or as none of them.`,
      );
}

function refuseSkipElsewhere(tree: Tree, place: Place, test: string): Refusal {
  if (place.kind === 'proof') {
    return refusal(
      'proof-not-skipped',
      'A proof is not skipped: without it nobody knows that the unit is mended.',
      'Make the test, or close the job with another outcome than fixed.',
    );
  }
  if (tree.interlocks.some(({ until }) => Object.hasOwn(until, test))) {
    return refusal(
      'interlock-not-skipped',
      'A test that an interlock waits for is not skipped: it keeps the unit and you from harm.',
      'Make the test, or skip the test that the changeover is for.',
    );
  }
  return refusal(
    'not-current',
    `“${testTitle(tree, test)}” is not the test that the course is at.`,
    'Skip the test that is asked now, or turn to this one first.',
  );
}

function refuseTurning(tree: Tree, job: JobState, test: string): Refusal | null {
  return refuseWork(tree, job) ?? (own(tree.tests, test) === undefined ? unknownTest(test) : null);
}

function refuseClose(job: JobState, outcome: string): Refusal | null {
  return outcome !== 'fixed' || job.remedies.at(-1)?.state === 'mended'
    ? null
    : refusal(
        'not-mended',
        'A job is fixed only once a remedy’s proof has been passed.',
        'Make the proof, or close with another outcome.',
      );
}
