import { replay, type Walk } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import type { JobSummary } from '../contract/index.ts';
import { recent, type Records } from '../records/index.ts';

/** A job's walk on the services' own copy of the chart, after so many of its events. */
export interface LiveWalk {
  readonly walk: Walk;
  readonly events: number;
}

export type Walks = ReturnType<typeof createWalks>;

/** The walks of the jobs that were in hand lately, so that an event costs one step and not a replay. */
export function createWalks() {
  const live = recent<string, LiveWalk>(64);
  return {
    /** The walk after the job's first `seq` events; null where the job has another number of events. */
    at(records: Records, job: JobSummary, seq: number): LiveWalk | null {
      const known = live.get(job.jobId);
      if (known?.events === seq) return known;
      const events = records.events.of(job.jobId).map(({ event }) => event);
      if (events.length !== seq) return null;
      const replayed = replay(records.charts.of(job.revisionId).chart, job.symptom, events);
      if (!replayed.ok) {
        throw new Error(`replay-refused: job ${job.jobId}, event ${replayed.at}: ${replayed.refusal.code}`);
      }
      return { walk: replayed.walk, events: seq };
    },
    keep: (jobId: string, walk: LiveWalk): void => live.set(jobId, walk),
    drop: (jobId: string): void => live.delete(jobId),
    clear: (): void => live.clear(),
  };
}

/** A job's own tree revision. */
export function treeOf(records: Records, job: Pick<JobSummary, 'revisionId'>): Tree {
  return records.charts.of(job.revisionId).tree;
}
