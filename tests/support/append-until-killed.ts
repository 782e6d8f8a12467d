import { writeSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { openServices, append, startJob } from '../../main/services/index.ts';
import { createWalks } from '../../main/services/walks.ts';
import { nextEvent, type AtBench } from '../../main/services/demo/next-event.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { unitDrawer } from '../../main/services/demo/unit-under-test.ts';
import { standing } from '../../trees/chart/index.ts';

/*
 * Run as `node append-until-killed.ts FILE LIBRARY SEED checkpoints|plain`: works through invented jobs for ever, and writes
 * `JOB SEQ ID` to standard output as soon as an event was acknowledged. With `checkpoints` it starts one after each event.
 */
const [, , file = '', library = '', seed = '', mode = 'plain'] = process.argv;
const services = await openServices({ file, host: 'loopback', library: new URL(library) });
const opening = services.desk.opening();
if (!opening.ok) throw new Error(opening.message);
const { records } = opening;
const random = seededRandom(Number(seed));
const walks = createWalks();
const [summary] = records.trees.list();
const revisionId = summary?.revisionId ?? '';
const { tree } = records.charts.of(revisionId);
const technicianId = records.technicians.list()[0]?.id ?? records.technicians.add('Ada')?.id ?? '';
const checkpointer = mode === 'checkpoints' ? new Sqlite(file) : null;
const drawer = unitDrawer(tree, random);

for (;;) {
  const unit = drawer.draw(0);
  const ticket = { revisionId, symptom: unit.symptom, board: '', serial: 'K-1', reference: '', technicianId };
  const started = startJob(records, ticket, false);
  if (!started.ok) throw new Error(started.trouble.message);
  walkToTheEnd(started.value.jobId, unit);
}

function walkToTheEnd(jobId: string, unit: ReturnType<typeof drawer.draw>): void {
  const bench: AtBench = { tree, unit, random, care: 1 };
  for (let seq = 0; seq < 200; seq += 1) {
    const at = walks.at(records, jobId, seq);
    if (!at.ok) throw new Error(at.code);
    const { act, job } = standing(at.live.walk);
    const next = nextEvent(bench, act, job);
    if (next === null) return;
    const appended = append(records, walks, { jobId, seq, technicianId, event: next.event });
    if (!appended.ok) throw new Error(appended.trouble.message);
    writeSync(1, `${jobId} ${String(seq)} ${appended.value.stored.id}\n`);
    checkpointer?.pragma('wal_checkpoint(TRUNCATE)');
  }
}
