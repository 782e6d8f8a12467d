import type { Tree } from '../../document/index.ts';
import { isMet } from '../changeover.ts';
import { isOpen } from '../interlock.ts';
import type { JobState } from '../job.ts';
import { placeOf, type Place } from '../place.ts';
import { nextProof, remedyNow } from '../remedy.ts';
import type { Situation } from '../situation.ts';
import type { Walk } from '../walk.ts';
import { complaintId } from './complaint.ts';
import { provable } from './reach.ts';

/**
 * The states that an SCXML interpreter of the export must be in where this walk stands: those of the job's symptom, the
 * course, the bench, the interlocks, answers (or skips) and remedies, sorted. They are atomic, but for `interlock.N.shut`
 * and `tried.FINDING.not-mended`; what is below these, and the regions that only help the others along (`stands`, `way`,
 * `safety`), is left out. A closed job is in its final state alone.
 */
export function scxmlConfiguration({ chart: { tree }, snapshot }: Walk): readonly string[] {
  const at = snapshot.context;
  const { job, bench } = at;
  if (job.outcome !== undefined) return [`closed.${job.outcome}`];
  return [
    complaintId(job.symptom),
    courseId(tree, at, placeOf(tree, snapshot.value)),
    ...Object.entries(bench).map(([axis, now]) => `bench.${axis}.${now}`),
    ...tree.interlocks.map(
      (lock, index) => `interlock.${String(index)}.${isOpen(lock, job) ? 'open' : 'shut'}`,
    ),
    ...Object.keys(tree.tests).map((test) => answerId(job, test)),
    attemptId(job),
    ...provable(tree).map((finding) => triedId(job, finding)),
  ].sort();
}

function courseId(tree: Tree, at: Situation, place: Place): string {
  switch (place.kind) {
    case 'step':
      return withAsking(tree, at, `path.${place.step.symptom}.${place.step.step}`, place.test);
    case 'aside':
      return withAsking(tree, at, `aside.${place.test}`, place.test);
    case 'finding':
      return `finding.${place.finding}`;
    case 'remedy':
      return withNeeds(
        at,
        `remedy.${place.finding}`,
        tree.findings[place.finding]?.remedy.needs ?? {},
        'doing',
      );
    case 'proof':
      return proofId(tree, at, place.finding);
    case 'contradiction':
      return `contradiction.${at.job.contradiction?.test ?? ''}.${at.job.contradiction?.result ?? ''}`;
    case 'mended':
      return `mended.${remedyNow(at.job)?.finding ?? ''}`;
    case 'adrift':
      return `adrift.${place.because}`;
    case 'closed':
      return `closed.${at.job.outcome ?? ''}`;
  }
}

function proofId(tree: Tree, at: Situation, finding: string): string {
  const remedy = remedyNow(at.job);
  const test = (remedy && nextProof(remedy)) ?? '';
  return withAsking(tree, at, `proof.${finding}.test.${test}`, test);
}

function withAsking(tree: Tree, at: Situation, id: string, test: string): string {
  return withNeeds(at, id, tree.tests[test]?.needs ?? {}, 'asking');
}

function withNeeds(at: Situation, id: string, needs: Readonly<Record<string, string>>, met: string): string {
  if (Object.keys(needs).length === 0) return id;
  return `${id}.${isMet(needs, at) ? met : 'preparing'}`;
}

/** An answer wins over a skip, so that the one region holds either. */
function answerId({ answers, skips, era }: JobState, test: string): string {
  const answer = answers.find((one) => one.test === test);
  if (answer !== undefined) return `answer.${test}.${answer.era === era ? 'now' : 'old'}.${answer.result}`;
  const skip = skips.find((one) => one.test === test);
  return skip?.as === undefined ? `answer.${test}.none` : `answer.${test}.as.${skip.as}`;
}

function attemptId(job: JobState): string {
  const remedy = job.remedies.at(-1);
  return remedy === undefined || remedy.state === 'given-up'
    ? 'attempt.none'
    : `attempt.${remedy.state}.${remedy.finding}`;
}

function triedId({ remedies }: JobState, finding: string): string {
  const isTried = remedies.some((one) => one.finding === finding && one.state === 'not-mended');
  return `tried.${finding}.${isTried ? 'not-mended' : 'no'}`;
}
