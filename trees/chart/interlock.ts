import { own, type Interlock, type Tree } from '../document/index.ts';
import { answerTo } from './answers.ts';
import type { JobState } from './job.ts';

/**
 * Whether an interlock is open: every test it waits for has given an allowed result since the last remedy, and none of
 * them is contradicted.
 */
export function isOpen(interlock: Interlock, job: JobState): boolean {
  return Object.keys(interlock.until).every((test) => verdict(interlock, job, test) === 'allowed');
}

/** Whether an interlock cannot open as things stand: one of its tests has given a result that is not allowed. */
export function isHopeless(interlock: Interlock, job: JobState): boolean {
  return Object.keys(interlock.until).some((test) => verdict(interlock, job, test) === 'not-allowed');
}

/** The first test that an interlock still waits for. */
export function nextOpener(interlock: Interlock, job: JobState): string | undefined {
  return Object.keys(interlock.until).find((test) => verdict(interlock, job, test) !== 'allowed');
}

/** Whether an interlock watches changeovers into this state. Each state it names is watched by itself. */
export function watches(interlock: Interlock, axis: string, state: string): boolean {
  return own(interlock.change, axis) === state;
}

/** The interlock that bars changeovers into this state now, a hopeless one first; undefined where none does. */
export function barring(tree: Tree, job: JobState, axis: string, state: string): number | undefined {
  const shut = tree.interlocks.flatMap((interlock, index) =>
    watches(interlock, axis, state) && !isOpen(interlock, job) ? [{ interlock, index }] : [],
  );
  return (shut.find(({ interlock }) => isHopeless(interlock, job)) ?? shut[0])?.index;
}

function verdict(interlock: Interlock, job: JobState, test: string): 'allowed' | 'not-allowed' | 'waiting' {
  if (job.contradiction?.test === test) return 'waiting';
  const answer = answerTo(job, test);
  if (answer === undefined || answer.era !== job.era) return 'waiting';
  return own(interlock.until, test)?.includes(answer.result) === true ? 'allowed' : 'not-allowed';
}
