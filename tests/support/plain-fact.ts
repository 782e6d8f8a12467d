import { trailOf } from '../../app/bench/job/trail.ts';
import type { Records } from '../../main/records/index.ts';
import { contributionOf } from '../../trees/belief/index.ts';
import { replay, standing, type JobState } from '../../trees/chart/index.ts';
import type { StoredEvent } from '../../main/contract/index.ts';
import type { JobFact } from '../../trees/review/index.ts';

/** What was shown by job, as the one who worked it saw it. */
export type ShownTo = ReadonlyMap<string, readonly (readonly [string, number])[]>;

/**
 * A closed job's fact worked out the long way from all events of all jobs, sharing nothing with the records' own: null where
 * the job is open. Its place is left out.
 */
export function plainFact(
  records: Records,
  jobIds: readonly string[],
  jobId: string,
  shownTo: ShownTo,
): Omit<JobFact, 'place'> | null {
  const job = records.jobs.find(jobId);
  const events = records.events.of(jobId);
  const last = events.at(-1);
  if (job === null || last === undefined) return null;
  const { tree } = records.charts.of(job.revisionId);
  const { kept } = trailOf(events);
  const states = statesOf(records, job.revisionId, job.symptom, kept);
  const after = states.at(-1);
  const current = records.trees.current(job.treeId);
  if (after?.outcome === undefined || current === null) return null;
  const isFixed = after.outcome === 'fixed';
  const remedy = isFixed ? after.remedies.findLastIndex(({ state }) => state === 'mended') : -1;
  const finding = after.remedies[remedy]?.finding ?? null;
  const closedAt = Date.parse(last.at);
  const shown = shownTo.get(jobId) ?? [];
  const confirmed = finding === null ? -1 : shown.map(([one]) => one).indexOf(finding);
  // The first event after which the job knows that remedy.
  const taken = kept.find((_, at) => remedy >= 0 && (states[at]?.remedies.length ?? 0) > remedy);
  return {
    closedAt,
    tree: job.treeId,
    symptom: job.symptom,
    board: job.board,
    technician: last.technicianId,
    outcome: after.outcome,
    finding,
    tried: firstProved(states),
    failed: after.remedies.filter(({ state }) => state === 'not-mended').length,
    backAt: backAt(records, jobIds, jobId, closedAt),
    toFinding: taken === undefined ? null : minutesUpTo(job.openedAt, events, taken),
    toProof: isFixed ? minutesUpTo(job.openedAt, events, kept.at(-2)) : null,
    atBench: minutesUpTo(job.openedAt, events, last),
    tests: kept.filter(({ event }) => event.kind === 'answer').length,
    parts: after.remedies
      .filter(({ state }) => ['proving', 'mended', 'not-mended'].includes(state))
      .flatMap((done) => tree.findings[done.finding]?.remedy.parts ?? [])
      .reduce((sum, { price }) => sum + price, 0),
    advised: kept.filter(({ event }) => 'advised' in event).length,
    answers: [...(contributionOf(current, after)?.results ?? [])].sort((a, b) => (a.test < b.test ? -1 : 1)),
    shown: shown.map(([, percent]) => percent),
    confirmed: confirmed < 0 ? null : confirmed,
  };
}

/** What the job knows after each of its kept events. */
function statesOf(
  records: Records,
  revisionId: string,
  symptom: string,
  kept: readonly StoredEvent[],
): readonly JobState[] {
  const { chart } = records.charts.of(revisionId);
  return kept.map((_, at) => {
    const walked = replay(
      chart,
      symptom,
      kept.slice(0, at + 1).map(({ event }) => event),
    );
    if (!walked.ok) throw new Error(walked.refusal.code);
    return standing(walked.walk).job;
  });
}

/** The first finding whose remedy somewhere on the way was found to have mended the unit or not. */
function firstProved(states: readonly JobState[]): string | null {
  for (const { remedies } of states) {
    const proved = remedies.filter(({ state }) => state.endsWith('mended'));
    if (proved[0] !== undefined) return proved[0].finding;
  }
  return null;
}

/** Milliseconds at the bench up to an event, no gap counting more than an hour. */
function minutesUpTo(openedAt: string, events: readonly StoredEvent[], end: StoredEvent | undefined): number {
  const moments = [openedAt, ...events.slice(0, (end?.seq ?? -1) + 1).map(({ at }) => at)].map(Date.parse);
  return moments
    .slice(1)
    .reduce((sum, at, before) => sum + Math.min(3_600_000, Math.max(0, at - (moments[before] ?? 0))), 0);
}

/** Of what jobs in tests have for a serial, what names no unit. */
const NO_SERIALS = new Set(['n/a', '?']);

function backAt(records: Records, jobIds: readonly string[], jobId: string, closedAt: number): number | null {
  const own = records.jobs.find(jobId);
  if (own !== null && NO_SERIALS.has(own.serial.toLowerCase())) return null;
  const opened = jobIds
    .flatMap((id) => (id === jobId ? [] : (records.jobs.find(id) ?? [])))
    .filter(
      ({ serial, family }) => serial.toLowerCase() === own?.serial.toLowerCase() && family === own.family,
    )
    .map(({ openedAt }) => Date.parse(openedAt))
    .filter((at) => at > closedAt);
  return opened.length === 0 ? null : Math.min(...opened);
}
