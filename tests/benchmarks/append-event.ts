import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { StoredEvent } from '../../main/contract/index.ts';
import { openRecords, seededIds, type Records } from '../../main/records/index.ts';
import { addLibrary, append, makeDemo, startJob } from '../../main/services/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { createWalks, jobStateOf } from '../../main/services/walks.ts';
import { advance, startWalk, type JobEvent } from '../../trees/chart/index.ts';
import { smallTree } from '../support/trees.ts';
import type { Measure } from './measure.ts';

const ROUNDS = 600;
const WARM_UP = 50;

/**
 * One durable event against a bare INSERT of the same row into an equal table with nothing else, write-ahead log and full
 * sync in both, taking turns on one disk in one run: recorded with all that is derived from it (the limit is on this),
 * and as the technician waits for it, checked and walked on the chart besides.
 */
export default async function benchmark(): Promise<Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const opening = openRecords({ file: join(folder, 'shop.sqlite') });
  if (!opening.ok) throw new Error(opening.message);
  const { records } = opening;
  try {
    addLibrary(records);
    makeDemo({ records, jobs: 500, seed: 1, until: Date.UTC(2026, 0, 31) });
    await records.integrity.done;
    const bench = shellTurner(records);
    const insert = bareInserter(join(folder, 'bare.sqlite'));
    return measures(takeTurns(bench, insert));
  } finally {
    await records.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Times {
  readonly services: number[];
  readonly records: number[];
  readonly bare: number[];
}

function measures(times: Times): Measure[] {
  const [services, recorded, bare] = [median(times.services), median(times.records), median(times.bare)];
  const against = 'the bare INSERT in the same run';
  return [
    { name: 'bare INSERT of the row', figure: bare, unit: 'ms' },
    { name: 'event through the records', figure: recorded, unit: 'ms' },
    { name: 'event through the services', figure: services, unit: 'ms' },
    {
      name: 'records, ratio of medians',
      figure: recorded / bare,
      unit: '×',
      limit: { atMost: 1.5 },
      against,
    },
    { name: 'services, ratio of medians', figure: services / bare, unit: '×', against },
  ];
}

function takeTurns(bench: ReturnType<typeof shellTurner>, insert: (row: StoredEvent) => void): Times {
  const times: Times = { services: [], records: [], bare: [] };
  for (let round = -WARM_UP; round < ROUNDS; round += 1) {
    bench.next();
    const start = performance.now();
    bench.throughServices();
    const served = performance.now();
    const prepared = bench.prepare();
    const ready = performance.now();
    const row = bench.throughRecords(prepared);
    const recorded = performance.now();
    insert(row);
    const inserted = performance.now();
    if (round < 0) continue;
    times.services.push(served - start);
    times.records.push(recorded - ready);
    times.bare.push(inserted - recorded);
  }
  return times;
}

const EVENTS_A_JOB = 20;

/** Opens and closes the shell of two small units, one job through the services and one through the records. */
function shellTurner(records: Records) {
  const tree = smallTree();
  const bytes = new TextEncoder().encode(JSON.stringify(tree));
  const { revisionId } = records.addRevision({ bytes, tree, source: 'import', note: '', pictures: [] });
  const { chart } = records.charts.of(revisionId);
  const technicianId = records.technicians.list()[0]?.id ?? '';
  const ticket = { revisionId, symptom: 'no-sound', board: '', serial: 'B-1', reference: '', technicianId };
  const walks = createWalks();
  const start = (): string => {
    const started = startJob(records, ticket, false);
    if (!started.ok) throw new Error(started.trouble.message);
    return started.value.jobId;
  };
  let served = '';
  let recorded = '';
  let walk = startWalk(chart, ticket.symptom);
  let seq = EVENTS_A_JOB - 1;
  const event = (): JobEvent => ({ kind: 'change', axis: 'shell', to: seq % 2 === 0 ? 'open' : 'closed' });
  return {
    next(): void {
      seq += 1;
      if (seq < EVENTS_A_JOB) return;
      [served, recorded, walk, seq] = [start(), start(), startWalk(chart, ticket.symptom), 0];
    },
    throughServices(): void {
      const appended = append(records, walks, { jobId: served, seq, technicianId, event: event() });
      if (!appended.ok) throw new Error(appended.trouble.message);
    },
    prepare() {
      const advanced = advance(walk, event());
      if (!advanced.ok) throw new Error(advanced.refusal.message);
      ({ walk } = advanced);
      return { jobId: recorded, seq, technicianId, event: event(), after: jobStateOf(walk), tree };
    },
    throughRecords(prepared: Parameters<Records['events']['append']>[0]): StoredEvent {
      const appended = records.events.append(prepared);
      if (!appended.ok) throw new Error(appended.code);
      return appended.stored;
    },
  };
}

function bareInserter(file: string): (row: StoredEvent) => void {
  const db = new Sqlite(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec(`CREATE TABLE job_event (
    id TEXT NOT NULL UNIQUE, job_id TEXT NOT NULL, seq INTEGER NOT NULL, at TEXT NOT NULL, technician_id TEXT NOT NULL,
    kind TEXT NOT NULL, body TEXT NOT NULL, PRIMARY KEY (job_id, seq)) STRICT, WITHOUT ROWID`);
  const insert = db.prepare('INSERT INTO job_event VALUES (?, ?, ?, ?, ?, ?, ?)');
  const jobIds = seededIds(seededRandom(3).next);
  let jobId = '';
  return (row) => {
    if (row.seq === 0) jobId = jobIds(Date.parse(row.at));
    const { kind, ...body } = row.event;
    insert.run(row.id, jobId, row.seq, row.at, row.technicianId, kind, JSON.stringify(body));
  };
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
