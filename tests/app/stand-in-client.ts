import { ORPCError } from '@orpc/client';
import type { JobEvent } from '../../trees/chart/index.ts';
import type { Job, StoredEvent, Technician, TreeSummary } from '../../main/contract/index.ts';
import type { Client } from '../../app/shell/session.svelte.ts';
import { smallDocument } from '../support/trees.ts';

/**
 * A stand-in for the main process, in memory: the app's own logic is tested here without a database. The end-to-end tests
 * drive the real services. `fail` makes the next append fail as the records would; `alongside` adds an event as if
 * another window had.
 */
export interface StandIn {
  readonly client: Client;
  readonly job: () => Job;
  readonly sent: () => readonly JobEvent[];
  fail(failure: unknown): void;
  alongside(event: JobEvent): void;
}

export const TECHNICIAN: Technician = { id: uuid(1), name: 'Mara Voss', retired: false };

export const COLLEAGUE = { ...TECHNICIAN, id: '01900000-0000-7000-8000-0000000000c0', name: 'Tobin' };
export const JOB_ID = uuid(2);
const REVISION_ID = uuid(3);
const AT = '2026-03-02T09:00:00.000Z';

export const SMALL_SUMMARY: TreeSummary = {
  treeId: 'small',
  revisionId: REVISION_ID,
  title: 'Small unit',
  summary: 'A tree for tests.',
  family: 'Small unit',
  boards: ['A1'],
  symptoms: [
    { id: 'dark-screen', title: 'Dark screen' },
    { id: 'no-sound', title: 'No sound' },
  ],
  addedAt: AT,
};

export function standIn(trees: readonly TreeSummary[] = [SMALL_SUMMARY]): StandIn {
  let events: readonly StoredEvent[] = [];
  let failure: unknown;
  const sent: JobEvent[] = [];
  const store = (event: JobEvent): StoredEvent => {
    const stored = {
      id: uuid(100 + events.length),
      seq: events.length,
      at: AT,
      technicianId: TECHNICIAN.id,
      event,
    };
    events = [...events, stored];
    return stored;
  };
  const job = (): Job => ({ job: { ...JOB, events: events.length }, events: [...events] });

  const procedures = {
    shop: { open: async () => SHOP },
    trees: {
      list: async () => [...trees],
      revision: async () => REVISION,
    },
    history: { of: async () => ({ findings: {}, results: {}, remedies: {} }) },
    jobs: {
      get: async () => job(),
      ofUnit: async () => [],
      start: async () => job(),
      append: async ({ seq, event }: { seq: number; event: JobEvent }) => {
        sent.push(event);
        if (failure !== undefined) throw take();
        if (seq !== events.length) throw expected('STALE_SEQUENCE');
        return store(event);
      },
    },
  };

  function take(): unknown {
    const now = failure;
    failure = undefined;
    return now;
  }

  return {
    // Only what these tests ask for is there; anything else fails as not a function.
    client: procedures as unknown as Client,
    job,
    sent: () => sent,
    fail: (next) => (failure = next),
    alongside: (event) => void store(event),
  };
}

/** A failure of the contract as the client gets it. */
export function expected(code: string): ORPCError<string, { where: string; help: string }> {
  return new ORPCError(code, { message: `It is ${code}.`, data: { where: 'the records', help: 'Do this.' } });
}

const SHOP = {
  state: 'ready',
  database: '/shop.db',
  invented: false,
  host: 'loopback',
  technicians: [TECHNICIAN, COLLEAGUE],
  instruments: [],
  hourlyRate: null,
  openJobs: 1,
  closedJobs: 0,
  integrity: 'sound',
  backups: [],
} as const;

const REVISION = {
  revisionId: REVISION_ID,
  treeId: 'small',
  text: JSON.stringify(smallDocument()),
  checksum: 'not-worked-out-here',
  addedAt: AT,
};

const JOB = {
  jobId: JOB_ID,
  treeId: 'small',
  revisionId: REVISION_ID,
  family: 'Small unit',
  board: 'A1',
  serial: 'S-1',
  reference: '',
  symptom: 'dark-screen',
  symptomTitle: 'Dark screen',
  technicianId: TECHNICIAN.id,
  technician: TECHNICIAN.name,
  openedAt: AT,
  lastAt: AT,
  events: 0,
  outcome: null,
  finding: null,
  findingTitle: null,
  invented: false,
} as const;

function uuid(n: number): string {
  return `01900000-0000-7000-8000-${String(n).padStart(12, '0')}`;
}
