import { own, UNLISTED, type Needs, type Tree } from '../document/index.ts';
import { isMet } from './changeover.ts';
import type { JobEvent } from './event.ts';
import type { JobState } from './job.ts';
import { refusal, refuseWork } from './refusal.ts';
import { refuseUnsafe } from './refuse-change.ts';
import { isRemedy, remedyState } from './remedy.ts';
import type { Situation } from './situation.ts';
import type { Refusal } from './standing.ts';

/** A remedy is taken in hand once: again only where it was given up. `unlisted` counts by what it is. */
export function refuseStart(
  tree: Tree,
  job: JobState,
  event: JobEvent & { kind: 'start-remedy' },
): Refusal | null {
  return refuseWork(tree, job) ?? refuseSecond(job) ?? refuseFinding(tree, job, event);
}

export function refuseDone(tree: Tree, at: Situation): Refusal | null {
  const blocked = refuseWork(tree, at.job) ?? refuseNoneInHand(at.job) ?? refuseUnsafe(tree, at);
  if (blocked !== null) return blocked;
  return isMet(remedyNeeds(tree, at.job), at)
    ? null
    : refusal(
        'needs-unmet',
        'The bench does not stand as this remedy needs it.',
        'Make the changeovers shown first, or give the remedy up.',
      );
}

export function refuseGivingUp(tree: Tree, job: JobState): Refusal | null {
  return refuseWork(tree, job) ?? refuseNoneInHand(job);
}

/** Bench state that the remedy in hand needs; a cause outside the tree names none. */
export function remedyNeeds(tree: Tree, job: JobState): Needs {
  return own(tree.findings, job.remedies.at(-1)?.finding ?? '')?.remedy.needs ?? {};
}

function refuseSecond(job: JobState): Refusal | null {
  if (isRemedy(job, 'in-hand')) {
    return refusal(
      'remedy-in-hand',
      'Another remedy is in hand.',
      'Say that it is done, or give it up, before you take up another.',
    );
  }
  return isRemedy(job, 'proving')
    ? refusal(
        'proof-first',
        'The last remedy has not been proved yet.',
        'Make its proof first: it shows whether another remedy is needed.',
      )
    : null;
}

function refuseFinding(
  tree: Tree,
  job: JobState,
  { finding, what }: JobEvent & { kind: 'start-remedy' },
): Refusal | null {
  if (finding === UNLISTED) return refuseUnlisted(job, what);
  if (own(tree.findings, finding) === undefined) {
    return refusal(
      'unknown-finding',
      `This tree has no finding “${finding}”.`,
      'Choose a finding of this tree, or `unlisted` and say what it is.',
    );
  }
  if (what !== undefined) {
    return refusal('what-not-wanted', 'The finding says what it is.', 'Leave `what` out.');
  }
  return remedyState(job, finding) === 'not-mended' ? triedAlready() : null;
}

function refuseUnlisted(job: JobState, what: string | undefined): Refusal | null {
  if (what === undefined) {
    return refusal('what-missing', 'A cause that is not in this tree has no name yet.', 'Say what it is.');
  }
  const before = job.remedies.findLast((remedy) => remedy.finding === UNLISTED && remedy.what === what);
  return before?.state === 'not-mended' ? triedAlready() : null;
}

function triedAlready(): Refusal {
  return refusal(
    'tried-already',
    'This remedy was tried, and its proof failed.',
    'Choose another finding, make further tests, or close the job.',
  );
}

function refuseNoneInHand(job: JobState): Refusal | null {
  if (isRemedy(job, 'in-hand')) return null;
  return isRemedy(job, 'proving')
    ? refusal('remedy-done-already', 'The remedy is done.', 'Make its proof, or take the last event back.')
    : refusal('no-remedy-in-hand', 'No remedy is in hand.', 'Choose a finding and start its remedy.');
}
