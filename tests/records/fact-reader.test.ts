import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openFactReader } from '../../main/records/fact-reader.ts';
import { createWalks } from '../../main/services/walks.ts';
import { append, startJob } from '../../main/services/index.ts';
import { factsIn } from '../support/recorded-facts.ts';
import {
  closedSpeakerJob,
  openShop,
  recordsOf,
  SPEAKER_MENDED,
  type TempShop,
} from '../support/temp-shop.ts';

const DAY = 86_400_000;
const BEGAN = Date.UTC(2026, 2, 2, 9);

function readerOf({ file }: TempShop) {
  const reader = openFactReader(file);
  onTestFinished(reader.close);
  return reader;
}

/** Opens a job on a day and closes it there; gives its id. */
function closedOn(shop: TempShop, day: number, serial: string): string {
  const records = recordsOf(shop);
  const [{ revisionId } = { revisionId: '' }] = records.trees.list();
  const technicianId = records.technicians.list()[0]?.id ?? records.technicians.add('Ada')?.id ?? '';
  const ticket = { revisionId, symptom: 'no-sound', board: 'A1', serial, reference: '', technicianId };
  const at = BEGAN + day * DAY;
  const started = startJob(records, ticket, false, at);
  if (!started.ok) throw new Error(started.trouble.message);
  const { jobId } = started.value;
  const walks = createWalks();
  for (const [seq, event] of SPEAKER_MENDED.entries()) {
    const appended = append(records, walks, { jobId, seq, technicianId, event }, at + (seq + 1) * 1000);
    if (!appended.ok) throw new Error(appended.trouble.message);
  }
  return jobId;
}

describe('a reader of the facts', () => {
  it('has nothing at first, and each closed job from the moment it is recorded', async () => {
    const shop = await openShop();
    const reader = readerOf(shop);
    expect(reader.facts()).toMatchObject({ blocks: [], ways: [undefined] });
    const first = closedOn(shop, 1, 'S-1');
    const second = closedOn(shop, 0, 'S-2');
    const places = factsIn(reader.facts()).map(({ place }) => place);
    expect(reader.jobsAt(places).map(({ jobId }) => jobId)).toEqual([second, first]);
    expect(reader.jobsAt([-1])).toEqual([]);
    expect(reader.isComplete()).toBe(true);
  });

  it('reads only the days that have changed, and gives the same facts where nothing has', async () => {
    const shop = await openShop();
    closedOn(shop, 0, 'S-1');
    closedOn(shop, 1, 'S-2');
    closedOn(shop, 2, 'S-3');
    const reader = readerOf(shop);
    const before = reader.facts();
    expect(reader.facts()).toBe(before);
    closedOn(shop, 1, 'S-4');
    closedOn(shop, 3, 'S-1');
    const after = reader.facts();
    expect(after.blocks.map(({ rows }) => rows)).toEqual([1, 2, 1, 1]);
    // S-1 is back on the fourth day, so that its first day has changed too.
    expect(after.blocks.map((block) => before.blocks.includes(block))).toEqual([false, false, true, false]);
    expect(after.blocks[0]?.backAt[0]).toBe(BEGAN + 3 * DAY);
    expect(before.blocks[0]?.backAt[0]).toBe(0);
    expect(after.ways).toBe(before.ways);
    expect(after.names).toEqual(before.names);
  });

  it('reads all anew where all was made anew', async () => {
    const shop = await openShop();
    closedOn(shop, 0, 'S-1');
    closedOn(shop, 1, 'S-2');
    const reader = readerOf(shop);
    const before = reader.facts();
    recordsOf(shop).rebuild();
    const after = reader.facts();
    expect(after.blocks.map((block) => before.blocks.includes(block))).toEqual([false, false]);
    expect(factsIn(after)).toEqual(factsIn(before));
  });

  it('holds no read open, so that the log of writes can be put away', async () => {
    const shop = await openShop();
    const reader = readerOf(shop);
    closedOn(shop, 0, 'S-1');
    reader.facts();
    const db = new Sqlite(shop.file);
    onTestFinished(() => void db.close());
    const [checkpoint] = db.pragma('wal_checkpoint(TRUNCATE)') as { readonly busy: number }[];
    expect(checkpoint?.busy).toBe(0);
  });

  it('knows the current revisions, their bytes, the counts and who works here', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const reader = readerOf(shop);
    const records = recordsOf(shop);
    const revisionId = records.trees.currentId('small') ?? '';
    expect(reader.current()).toEqual([{ treeId: 'small', revisionId }]);
    expect(new TextDecoder().decode(reader.bytesOf(revisionId))).toBe(records.trees.find(revisionId)?.text);
    expect(() => reader.bytesOf('none')).toThrow('revision-missing');
    expect(reader.historyOf('small')).toEqual(records.historyOf('small'));
    const [technician] = records.technicians.list();
    expect([...reader.technicians()]).toEqual([[technician?.id, 'Ada']]);
  });

  it('is not to be had of a file that is not there', () => {
    expect(() => openFactReader('/nowhere/shop.sqlite')).toThrow();
  });
});
