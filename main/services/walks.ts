import { replay, type JobState, type Walk } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { recent, type Records } from '../records/index.ts';

/** A job's walk on the services' own copy of the chart, after so many of its events. */
export interface LiveWalk {
  readonly walk: Walk;
  readonly events: number;
}

export type WalkAt =
  | { readonly ok: true; readonly live: LiveWalk }
  | { readonly ok: false; readonly code: 'NO_SUCH_JOB' | 'STALE' };

export type Walks = ReturnType<typeof createWalks>;

/** The walks of the jobs that were in hand lately, so that an event costs one step and not a replay. */
export function createWalks() {
  const live = recent<string, LiveWalk>(64);
  return {
    /** The walk after the job's first `seq` events; stale where the job has another number of events. */
    at(records: Records, jobId: string, seq: number): WalkAt {
      const known = live.get(jobId);
      return known?.events === seq ? { ok: true, live: known } : replayed(records, jobId, seq);
    },
    keep: (jobId: string, walk: LiveWalk): void => live.set(jobId, walk),
    drop: (jobId: string): void => live.delete(jobId),
    clear: (): void => live.clear(),
  };
}

/** The tree revision a walk is on. */
export function treeOf({ walk }: LiveWalk): Tree {
  return walk.chart.tree;
}

/** What the job knows at the end of a walk. */
export function jobStateOf(walk: Walk): JobState {
  return walk.snapshot.context.job;
}

function replayed(records: Records, jobId: string, seq: number): WalkAt {
  const job = records.jobs.find(jobId);
  if (job === null) return { ok: false, code: 'NO_SUCH_JOB' };
  const events = records.events.of(jobId).map(({ event }) => event);
  if (events.length !== seq) return { ok: false, code: 'STALE' };
  const walked = replay(records.charts.of(job.revisionId).chart, job.symptom, events);
  if (walked.ok) return { ok: true, live: { walk: walked.walk, events: seq } };
  throw new Error(`replay-refused: job ${jobId}, event ${String(walked.at)}: ${walked.refusal.code}`);
}
