import type { ShownFinding } from '../../trees/review/index.ts';
import type { Database } from './database.ts';

export type Shown = ReturnType<typeof openShown>;

/** What the bench showed beside the likely findings when each job's first remedy was taken in hand. Never made anew: history moves on. */
export function openShown(db: Database) {
  const remedyOf = db
    .prepare<[string], number>("SELECT seq FROM job_event WHERE job_id = ? AND kind = 'start-remedy' LIMIT 1")
    .pluck();
  const insert = db.prepare<[string, number, string]>(
    'INSERT INTO belief_shown (job_id, seq, findings) VALUES (?, ?, ?)',
  );
  return {
    /** Whether no remedy was ever taken in hand in this job, one that was taken back counting too. */
    isDue: (jobId: string): boolean => remedyOf.get(jobId) === undefined,
    /** The caller holds the transaction. */
    add: (jobId: string, seq: number, findings: readonly ShownFinding[]): void =>
      void insert.run(jobId, seq, JSON.stringify(findings)),
  };
}
