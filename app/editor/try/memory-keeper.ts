import { advance, startWalk, type Chart, type Refusal, type Walk } from '../../../trees/chart/index.ts';
import type { Job, StoredEvent } from '../../../main/contract/index.ts';
import type { JobKeeper, NextEvent } from '../../bench/index.ts';
import type { Asked } from '../../shell/index.ts';

/** The id that a try-out has for a job, and its draft for a revision. */
export const TRIED = 'tried';

/**
 * Keeps the events of a job that is only tried out in this window's memory, and nothing anywhere else. Each is first made
 * on a copy of the chart of its own, as the records do. `now` gives the moment, ISO 8601 in UTC.
 */
export function memoryKeeper(chart: Chart, symptom: string, now = utcNow): JobKeeper {
  const openedAt = now();
  let walk: Walk = startWalk(chart, symptom);
  let events: readonly StoredEvent[] = [];
  return {
    isRecorded: false,
    technicianId: '',
    async get() {
      const lastAt = events.at(-1)?.at ?? openedAt;
      return { ok: true, value: triedJob(chart, symptom, { openedAt, lastAt, events }) };
    },
    async append({ seq, event }: NextEvent): Promise<Asked<StoredEvent>> {
      if (seq !== events.length) return stale(seq, events.length);
      const advanced = advance(walk, event);
      if (!advanced.ok) return refused(advanced.refusal);
      const stored = { id: `${TRIED}-${String(seq)}`, seq, at: now(), technicianId: '', event };
      walk = advanced.walk;
      events = [...events, stored];
      return { ok: true, value: stored };
    },
  };
}

function utcNow(): string {
  return new Date().toISOString();
}

interface Tried {
  readonly openedAt: string;
  readonly lastAt: string;
  readonly events: readonly StoredEvent[];
}

function triedJob({ tree }: Chart, symptom: string, { openedAt, lastAt, events }: Tried): Job {
  return {
    job: {
      jobId: TRIED,
      treeId: tree.id,
      revisionId: TRIED,
      family: tree.unit.family,
      board: '',
      serial: 'Try-out',
      reference: '',
      symptom,
      symptomTitle: tree.symptoms[symptom]?.title ?? symptom,
      technicianId: '',
      technician: '',
      openedAt,
      lastAt,
      events: events.length,
      outcome: null,
      finding: null,
      findingTitle: null,
      invented: false,
    },
    events: [...events],
  };
}

function stale(seq: number, kept: number): Asked<never> {
  return {
    ok: false,
    trouble: {
      code: 'STALE_SEQUENCE',
      message: 'The try-out has gone on since.',
      where: `event ${String(seq + 1)} of ${String(kept)}`,
      help: 'See where it stands now, then go on.',
    },
  };
}

function refused({ message, help }: Refusal): Asked<never> {
  return { ok: false, trouble: { code: 'EVENT_REFUSED', message, where: 'the try-out', help } };
}
