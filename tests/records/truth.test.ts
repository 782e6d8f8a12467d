import Sqlite, { type Database } from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Records } from '../../main/records/index.ts';
import { migrate, readMigrations } from '../../main/records/migrate.ts';
import { bytesOf, closedSpeakerJob, openShop, recordsOf } from '../support/temp-shop.ts';
import { smallTree } from '../support/trees.ts';

/** Of the fourth migration, what can be made again. */
const DERIVED = ['fact_block', 'fact_name', 'way', 'fact_state'];

/** The tables that the first, the third and in part the fourth migration make: all that is truth. */
const TRUTH = [...madeBy(1), ...madeBy(3), ...madeBy(4).filter((table) => !DERIVED.includes(table))];

function madeBy(number: number): readonly string[] {
  const db = new Sqlite(':memory:');
  migrate(db, readMigrations().slice(0, number - 1), () => 0);
  const names = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck();
  const before = [...names.all(), 'migration'];
  migrate(db, readMigrations().slice(0, number), () => 0);
  return names.all().filter((name) => !before.includes(name));
}

/** A database with at least one row in every truth table; a row trigger is asked for each row only. */
async function filled(): Promise<Database> {
  const shop = await openShop();
  await closedSpeakerJob(shop);
  const records = recordsOf(shop);
  records.technicians.retire(records.technicians.add('Bo')?.id ?? '');
  const meter = { name: 'Meter', measures: 'ohms', percent: 1, constant: 0.1 } as const;
  records.instruments.retire(records.instruments.add(meter)?.id ?? '');
  records.settings.set('backup-after-jobs', 5);
  const pictures = [{ file: 'board.svg', bytes: new TextEncoder().encode('<svg/>') }];
  const tree = smallTree();
  records.addRevision({ bytes: bytesOf(tree), tree, source: 'published', note: '', pictures });
  publishedDraft(records);
  const db = new Sqlite(shop.file);
  onTestFinished(() => void db.close());
  db.pragma('recursive_triggers = ON');
  return db;
}

function publishedDraft(records: Records): void {
  const technicianId = records.technicians.list()[0]?.id ?? '';
  const tree = smallTree();
  const onto = records.trees.currentId(tree.id);
  const pictures = [{ file: 'shell.svg', bytes: new TextEncoder().encode('<svg />') }];
  const begun = { treeId: tree.id, baseRevision: onto, baseBytes: null, technicianId, pictures };
  const { draftId } = records.drafts.start(begun);
  records.drafts.append({ draftId, seq: 0, technicianId, entries: [{ kind: 'undo' }] });
  const revision = { bytes: bytesOf(tree), tree, source: 'published' as const, note: 'Two', pictures };
  records.publish({ revision, technicianId, onto, draft: { draftId, entries: 1 } });
}

describe('the truth', () => {
  it('is these tables', () => {
    expect(TRUTH).toEqual([
      'tree_revision',
      'picture',
      'revision_picture',
      'technician',
      'technician_retired',
      'instrument',
      'instrument_retired',
      'setting',
      'job',
      'job_event',
      'draft',
      'draft_entry',
      'draft_ended',
      'draft_picture',
      'revision_author',
      'belief_shown',
    ]);
  });

  it.each(TRUTH)('in %s cannot be changed, deleted or replaced', async (table) => {
    const db = await filled();
    const rows = db.prepare(`SELECT * FROM ${table}`).all();
    expect(rows.length).toBeGreaterThan(0);
    const [column = ''] = db
      .prepare<[], string>(`SELECT name FROM pragma_table_info('${table}')`)
      .pluck()
      .all();
    expect(() => db.exec(`UPDATE ${table} SET ${column} = ${column}`)).toThrow(/^truth: .* never changed$/);
    expect(() => db.exec(`DELETE FROM ${table}`)).toThrow(/^truth: .* never deleted$/);
    expect(() => db.exec(`REPLACE INTO ${table} SELECT * FROM ${table}`)).toThrow(
      /^truth: .* never deleted$/,
    );
    expect(db.prepare(`SELECT * FROM ${table}`).all()).toEqual(rows);
  });

  it('refuses an event of a job, a technician or a kind that is not there', async () => {
    const db = await filled();
    const insert = db.prepare(
      `INSERT INTO job_event (id, job_id, seq, at, technician_id, kind, body)
       SELECT ?, coalesce(?, job_id), 99, at, coalesce(?, technician_id), coalesce(?, kind), '{}' FROM job_event LIMIT 1`,
    );
    const id = '01900000-0000-7000-8000-000000000000';
    db.pragma('foreign_keys = ON');
    expect(() => insert.run(id, id, null, null)).toThrow('FOREIGN KEY');
    expect(() => insert.run(id, null, id, null)).toThrow('FOREIGN KEY');
    expect(() => insert.run(id, null, null, 'forget')).toThrow('CHECK');
  });

  it('keeps no id that is not a UUIDv7', async () => {
    const db = await filled();
    expect(() => db.exec("INSERT INTO technician VALUES ('1', 'Cy', '2026-01-05T09:00:00.000Z')")).toThrow(
      'CHECK',
    );
  });
});
