import type { JobState } from '../../trees/chart/index.ts';
import { UNLISTED } from '../../trees/document/index.ts';
import type { PastJob, PastReading } from '../contract/index.ts';
import type { Room } from './database.ts';
import type { Events } from './events.ts';

interface StateRow {
  readonly state: string;
  readonly closedAt: string;
}

export type Past = ReturnType<typeof openPast>;

/** What the closed jobs of a tree have shown, as they were recorded: raw readings, and the jobs with their events. */
export function openPast({ db }: Pick<Room, 'db'>, events: Events) {
  // A state that does not name the test is not worth parsing; an id has no letters that JSON would write otherwise.
  const statesNaming = db.prepare<[string, string], StateRow>(
    `SELECT state, last_at AS closedAt FROM closed_state JOIN job_status USING (place)
     WHERE closed_state.tree_id = ? AND instr(state, ?) > 0 ORDER BY place DESC`,
  );
  const closedJobs = db.prepare<[string, number], Omit<PastJob, 'events'>>(
    `SELECT job_id AS jobId, serial, reference, symptom, opened_at AS openedAt, last_at AS closedAt, outcome, finding,
       revision_id AS revisionId
     FROM job_status JOIN job ON job.id = job_id
     WHERE tree_id = ? AND outcome IS NOT NULL ORDER BY place DESC LIMIT ?`,
  );
  return {
    /** The newest `limit` readings of a test in jobs with a confirmed finding of the tree, and whether there are more. */
    readings(treeId: string, test: string, limit: number): { readings: PastReading[]; more: boolean } {
      const readings: PastReading[] = [];
      for (const { state, closedAt } of statesNaming.iterate(treeId, `"test":"${test}"`)) {
        readings.push(...readingsIn(JSON.parse(state) as JobState, test, closedAt));
        if (readings.length > limit) break;
      }
      return { readings: readings.slice(0, limit), more: readings.length > limit };
    },
    /** The newest `limit` closed jobs, whatever their outcome. */
    jobs: (treeId: string, limit: number): PastJob[] =>
      closedJobs
        .all(treeId, limit)
        .map((job) => ({ ...job, events: events.of(job.jobId).map(({ event }) => event) })),
  };
}

/** The same answers that the counts are made of: those that led to the remedy that mended the unit. */
function readingsIn({ outcome, remedies }: JobState, test: string, closedAt: string): PastReading[] {
  const mended = outcome === 'fixed' ? remedies.findLast(({ state }) => state === 'mended') : undefined;
  if (mended === undefined || mended.finding === UNLISTED) return [];
  return mended.evidence.flatMap((answer) => {
    if (answer.test !== test || answer.reading === undefined) return [];
    const { value, accuracy } = answer.reading;
    const { result, reference = null, era } = answer;
    return [{ value, reference, accuracy, result, finding: mended.finding, era0: era === 0, closedAt }];
  });
}
