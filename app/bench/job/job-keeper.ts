import type { JobEvent } from '../../../trees/chart/index.ts';
import type { Job, StoredEvent } from '../../../main/contract/index.ts';
import type { Asked, Session } from '../../shell/index.ts';

/** What is to be kept of a job: its next event, and the number it is to get. */
export interface NextEvent {
  readonly jobId: string;
  readonly seq: number;
  readonly technicianId: string;
  readonly event: JobEvent;
}

/** Where the events of a job are kept. */
export interface JobKeeper {
  /** False for a job that is only tried out: what is done in it goes no further than this window. */
  readonly isRecorded: boolean;
  /** Who is at work; null until somebody says so. */
  readonly technicianId: string | null;
  get(jobId: string): Promise<Asked<Job>>;
  /** Keeps one event; durable when it answers, where the job is recorded. */
  append(next: NextEvent): Promise<Asked<StoredEvent>>;
}

/** The shop's records, in the name of whoever is at work in this window. */
export function shopKeeper(session: Session): JobKeeper {
  return {
    isRecorded: true,
    get technicianId() {
      return session.technician?.id ?? null;
    },
    get: (jobId) => session.ask((client, signal) => client.jobs.get({ jobId }, { signal })),
    append: (next) => session.ask((client, signal) => client.jobs.append({ ...next }, { signal })),
  };
}
