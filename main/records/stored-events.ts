import type { JobEvent } from '../../trees/chart/index.ts';
import type { StoredEvent } from '../contract/index.ts';
import type { Database } from './database.ts';

interface Row {
  readonly id: string;
  readonly seq: number;
  readonly at: string;
  readonly technicianId: string;
  readonly kind: string;
  readonly body: string;
}

export type StoredEvents = ReturnType<typeof openStoredEvents>;

/** All events of a job in order. */
export function openStoredEvents(db: Database): (jobId: string) => StoredEvent[] {
  const ofJob = db.prepare<[string], Row>(
    'SELECT id, seq, at, technician_id AS technicianId, kind, body FROM job_event WHERE job_id = ? ORDER BY seq',
  );
  return (jobId) => ofJob.all(jobId).map(stored);
}

function stored({ id, seq, at, technicianId, kind, body }: Row): StoredEvent {
  const rest = JSON.parse(body) as object;
  return { id, seq, at, technicianId, event: { kind, ...rest } as JobEvent };
}
