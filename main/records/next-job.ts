import { isPlaceholderSerial } from '../../trees/review/index.ts';
import type { Database } from './database.ts';

/** A job by its unit. */
export interface UnitJob {
  readonly jobId: string;
  readonly serial: string;
  readonly family: string;
}

/** The job that a unit was next brought in with. */
export interface NextJob {
  readonly jobId: string;
  /** In the form of the records. */
  readonly openedAt: string;
}

/**
 * Tells which job a unit was next brought in with after a moment, in the form of the records; null where it has not been, or is not
 * known as a placeholder stands for its serial ({@link isPlaceholderSerial}).
 */
export function openNextJob(db: Database): (job: UnitJob, after: string) => NextJob | null {
  const nextOpened = db.prepare<[UnitJob & { readonly after: string }], NextJob>(
    `SELECT job.id AS jobId, opened_at AS openedAt FROM job JOIN job_status ON job_id = job.id
     WHERE serial = @serial COLLATE NOCASE AND opened_at > @after AND family = @family AND job.id <> @jobId
     ORDER BY opened_at LIMIT 1`,
  );
  return ({ jobId, serial, family }, after) =>
    isPlaceholderSerial(serial) ? null : (nextOpened.get({ jobId, serial, family, after }) ?? null);
}
