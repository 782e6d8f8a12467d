import { writeSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { createRouterClient } from '@orpc/server';
import { openServices } from '../../main/services/index.ts';

/*
 * Run as `node edit-until-killed.ts FILE LIBRARY checkpoints|plain`: edits a draft for ever, now and then publishing it and
 * beginning the next, and writes `DRAFT SEQ` to standard output as soon as an entry was acknowledged, and `DRAFT ended` as
 * soon as its publishing was. With `checkpoints` it starts one after each entry.
 */
const [, , file = '', library = '', mode = 'plain'] = process.argv;
const services = await openServices({ file, host: 'loopback', library: new URL(library) });
const client = createRouterClient(services.router);
const shop = await client.shop.open();
const known = shop.state === 'ready' ? shop.technicians[0] : undefined;
const technicianId = known?.id ?? (await client.shop.addTechnician({ name: 'Ada' })).id;
const checkpointer = mode === 'checkpoints' ? new Sqlite(file) : null;
const ENTRIES = 12;

for (;;) {
  const [tree] = await client.trees.list();
  const onto = tree?.revisionId ?? '';
  const { draft } = await client.drafts.start({ technicianId, from: { kind: 'revision', revisionId: onto } });
  const { draftId } = draft;
  for (let seq = 0; seq < ENTRIES; seq += 1) {
    const title = `Title ${String(seq)} of ${draftId}`;
    const change = { do: 'set', path: ['title'], value: title } as const;
    const entries = [{ kind: 'edit', what: title, changes: [change] } as const];
    await client.drafts.append({ draftId, seq, technicianId, entries });
    writeSync(1, `${draftId} ${String(seq)}\n`);
    checkpointer?.pragma('wal_checkpoint(TRUNCATE)');
  }
  await client.drafts.publish({ draftId, seq: ENTRIES, technicianId, note: 'Another title', onto });
  writeSync(1, `${draftId} ended\n`);
}
