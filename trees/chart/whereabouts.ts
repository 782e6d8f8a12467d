import { destination, meetingsOf, own, type Tree } from '../document/index.ts';
import { answerTo, isLeftOut, resultToGoBy } from './answers.ts';
import type { JobState } from './job.ts';
import type { Place } from './place.ts';
import { proofProgress, remedyNow, remedyState, withLast } from './remedy.ts';
import type { Situation } from './situation.ts';
import type { StepRef } from './standing.ts';

/** Where the course stands, and the job with a proof that has come to its end written into it. */
export interface Whereabouts {
  readonly job: JobState;
  readonly place: Place;
}

/**
 * Where the course stands, worked out from what the job knows and how the bench stands: what the machine's region
 * `course` comes to by itself, for arithmetic over many jobs, where an XState event each is too slow. Only a test turned
 * to (`aside`) is not in what a job knows, and so is never the answer.
 */
export function whereabouts(tree: Tree, at: Situation): Whereabouts {
  const { job } = at;
  if (job.outcome !== undefined) return { job, place: { kind: 'closed' } };
  if (job.contradiction !== undefined) return { job, place: { kind: 'contradiction' } };
  const remedy = remedyNow(job);
  if (remedy?.state === 'in-hand') return { job, place: { kind: 'remedy', finding: remedy.finding } };
  if (remedy?.state === 'mended') return { job, place: { kind: 'mended' } };
  if (remedy?.state === 'proving') return proving(tree, at, remedy.finding);
  return { job, place: onPath(tree, job) };
}

/**
 * The place that the course comes to from one on the path, by the answers and skips that stand. Each finding whose remedy
 * did not mend the unit leads on once, where its `otherwise` says.
 */
export function courseFrom(tree: Tree, job: JobState, from: Place): Place {
  const passed = new Set<string>();
  let place = from;
  for (;;) {
    const next = onward(tree, job, place, passed);
    if (next === null) return place;
    if (place.kind === 'finding') passed.add(place.finding);
    place = next;
  }
}

/** The place where a symptom's path starts. */
export function firstPlace(tree: Tree, symptom: string): Place {
  const first = own(tree.symptoms, symptom)?.first;
  const place = first === undefined ? null : placeAt(tree, first, symptom);
  return place ?? { kind: 'adrift', because: 'no-path' };
}

function proving(tree: Tree, at: Situation, finding: string): Whereabouts {
  const { job } = at;
  switch (proofProgress(tree, at).kind) {
    case 'next':
      return { job, place: { kind: 'proof', finding } };
    case 'passed':
      return { job: withLast(job, (remedy) => ({ ...remedy, state: 'mended' })), place: { kind: 'mended' } };
    case 'failed': {
      const failed = withLast(job, (remedy) => ({ ...remedy, state: 'not-mended' }));
      return { job: failed, place: onPath(tree, failed) };
    }
  }
}

function onPath(tree: Tree, job: JobState): Place {
  return courseFrom(tree, job, firstPlace(tree, job.symptom));
}

function onward(tree: Tree, job: JobState, place: Place, passed: ReadonlySet<string>): Place | null {
  if (place.kind === 'step') return branchTaken(tree, job, place);
  if (place.kind !== 'finding' || remedyState(job, place.finding) !== 'not-mended') return null;
  const otherwise = passed.has(place.finding) ? undefined : own(tree.findings, place.finding)?.otherwise;
  const led = otherwise === undefined ? null : placeAt(tree, otherwise, job.symptom);
  return led ?? { kind: 'adrift', because: 'path-ended' };
}

function branchTaken(tree: Tree, job: JobState, { step, test }: Place & { kind: 'step' }): Place | null {
  const result = resultToGoBy(job, test);
  const then = own(own(tree.symptoms, step.symptom)?.steps ?? {}, step.step)?.then ?? {};
  const branch = result === undefined ? undefined : own(then, result);
  if (branch === undefined) return isLeftOut(job, test) ? meetingPlace(tree, job, step) : null;
  return placeAt(tree, branch.go, step.symptom) ?? { kind: 'adrift', because: 'path-ended' };
}

/** Where the path is met again after a step that is left out, by the answers that stand. */
function meetingPlace(tree: Tree, job: JobState, from: StepRef): Place {
  const met = meetingsOf(tree)(from, (test) => answerTo(job, test) !== undefined);
  if (met === null) return { kind: 'adrift', because: 'skipped' };
  return { kind: 'step', step: { symptom: met.symptom, step: met.step }, test: met.test };
}

/** The place a `go` or `otherwise` written in `symptom`'s path names; null where no such place is. */
function placeAt(tree: Tree, go: string, symptom: string): Place | null {
  const to = destination(go, symptom);
  if (to.kind === 'finding') return { kind: 'finding', finding: to.finding };
  const path = own(tree.symptoms, to.symptom);
  const id = to.kind === 'step' ? to.step : path?.first;
  const step = path === undefined || id === undefined ? undefined : own(path.steps, id);
  if (id === undefined || step === undefined) return null;
  return { kind: 'step', step: { symptom: to.symptom, step: id }, test: step.test };
}
