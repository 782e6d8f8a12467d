import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { prepare } from '../../main/records/open.ts';
import { closedSpeakerJob, openShop, recordsOf, tempFolder } from '../support/temp-shop.ts';

function opened(file: string) {
  const opening = openRecords({ file });
  if (opening.ok) onTestFinished(() => opening.records.close());
  return opening;
}

async function closedShop() {
  const shop = await openShop();
  await closedSpeakerJob(shop);
  await shop.services.close();
  return shop;
}

describe('opening the records', () => {
  it('makes a database with a write-ahead log, marked as ours, in a folder it makes', () => {
    const file = join(tempFolder(), 'new', 'shop.sqlite');
    expect(opened(file).ok).toBe(true);
    const db = new Sqlite(file, { readonly: true });
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('application_id', { simple: true })).toBe(0x4f686d77);
    db.close();
  });

  it('sets its connection to full sync, checked references, and triggers that hold against REPLACE', () => {
    const db = new Sqlite(join(tempFolder(), 'shop.sqlite'));
    onTestFinished(() => void db.close());
    prepare(db);
    const set = (pragma: string) => db.pragma(pragma, { simple: true });
    expect(['journal_mode', 'synchronous', 'foreign_keys', 'recursive_triggers'].map(set)).toEqual([
      'wal',
      2,
      1,
      1,
    ]);
  });

  it('finds everything again', async () => {
    const { file } = await closedShop();
    const again = opened(file);
    expect(again.ok && again.records.tallies()).toEqual({ open: 0, closed: 1, invented: 0 });
  });

  it('writes nothing where nothing is due', async () => {
    const { file } = await closedShop();
    const before = { bytes: readFileSync(file), changed: statSync(file, { bigint: true }).mtimeNs };
    const again = openRecords({ file });
    expect(again.ok && (await again.records.integrity.done)).toBe('sound');
    if (again.ok) await again.records.close();
    expect(readFileSync(file).equals(before.bytes)).toBe(true);
    expect(statSync(file, { bigint: true }).mtimeNs).toBe(before.changed);
  });

  it('refuses a newer database and leaves it byte for byte as it is', async () => {
    const { file } = await closedShop();
    const db = new Sqlite(file);
    db.pragma('user_version = 9999');
    db.pragma('journal_mode = DELETE');
    db.close();
    const before = readFileSync(file);
    expect(opened(file)).toMatchObject({
      ok: false,
      code: 'NEWER_DATABASE',
      help: expect.stringContaining('newer'),
    });
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('refuses a file that is no database and leaves it as it is', () => {
    const file = join(tempFolder(), 'letter.txt');
    writeFileSync(file, 'Dear customer, '.repeat(400));
    expect(opened(file)).toMatchObject({ ok: false, code: 'NOT_A_DATABASE' });
    expect(readFileSync(file, 'utf8')).toBe('Dear customer, '.repeat(400));
  });

  it('refuses another program’s database and leaves it as it is', () => {
    const file = join(tempFolder(), 'other.sqlite');
    const db = new Sqlite(file);
    db.exec('CREATE TABLE recipe (title TEXT)');
    db.close();
    const before = readFileSync(file);
    expect(opened(file)).toMatchObject({ ok: false, code: 'NOT_A_DATABASE' });
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('says that a database with a destroyed first page is damaged or none, and offers its backups', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const made = await recordsOf(shop).backups.make();
    await shop.services.close();
    const bytes = readFileSync(shop.file);
    writeFileSync(shop.file, bytes.fill(0xa5, 100, 4096));
    const opening = opened(shop.file);
    expect(opening).toMatchObject({ ok: false, code: 'DAMAGED' });
    expect(!opening.ok && opening.backups.map(({ file }) => file)).toContain(made.ok && made.backup.file);
  });

  it('opens a database with a destroyed inner page, and the check beside the work says that it is damaged', async () => {
    const { file } = await closedShop();
    const db = new Sqlite(file, { readonly: true });
    const page =
      db.prepare<[], number>("SELECT max(pageno) FROM dbstat WHERE name = 'job_event'").pluck().get() ?? 0;
    db.close();
    const bytes = readFileSync(file);
    writeFileSync(file, bytes.fill(0xa5, (page - 1) * 4096, page * 4096));
    const opening = opened(file);
    expect(opening.ok && (await opening.records.integrity.done)).toBe('damaged');
  });

  it('finds a sound database sound', async () => {
    const { file } = await closedShop();
    const opening = opened(file);
    expect(opening.ok && opening.records.integrity.state()).toBe('checking');
    expect(opening.ok && (await opening.records.integrity.done)).toBe('sound');
    expect(opening.ok && opening.records.integrity.state()).toBe('sound');
  });

  it('opens an empty file as a new database', () => {
    const file = join(tempFolder(), 'empty.sqlite');
    writeFileSync(file, '');
    expect(opened(file).ok).toBe(true);
  });

  it('refuses a folder in the file’s place', () => {
    const file = join(tempFolder(), 'folder');
    mkdirSync(file);
    expect(opened(file)).toMatchObject({ ok: false, code: 'UNREADABLE' });
  });

  it('refuses a path that goes through a file', () => {
    const folder = tempFolder();
    writeFileSync(join(folder, 'file'), '');
    expect(opened(join(folder, 'file', 'shop.sqlite'))).toMatchObject({ ok: false, code: 'UNREADABLE' });
  });

  it('says that another program has the database locked', { timeout: 15_000 }, async () => {
    const { file } = await closedShop();
    const db = new Sqlite(file);
    db.pragma('locking_mode = EXCLUSIVE');
    db.exec('BEGIN EXCLUSIVE; COMMIT');
    expect(opened(file)).toMatchObject({ ok: false, code: 'IN_USE' });
    db.close();
  });

  it('says that folder or file are read-only, before anything is tried', async () => {
    const shop = await closedShop();
    const elsewhere = tempFolder();
    chmodSync(elsewhere, 0o555);
    chmodSync(shop.folder, 0o755);
    chmodSync(shop.file, 0o444);
    expect(openAsNobody(join(elsewhere, 'new.sqlite'))).toMatchObject({ ok: false, code: 'READ_ONLY' });
    expect(openAsNobody(shop.file)).toMatchObject({ ok: false, code: 'READ_ONLY' });
    chmodSync(elsewhere, 0o755);
  });
});

/** Opens in a process of its own without root's rights, to which nothing is read-only. */
function openAsNobody(file: string): unknown {
  const records = new URL('../../main/records/index.ts', import.meta.url).href;
  const script = `const { openRecords } = await import(${JSON.stringify(records)});
    const opening = openRecords({ file: ${JSON.stringify(file)} });
    console.log(JSON.stringify(opening.ok ? { ok: true } : opening));
    if (opening.ok) await opening.records.close();`;
  const nobody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  return JSON.parse(
    execFileSync(process.execPath, ['--input-type=module', '-e', script], { ...nobody, encoding: 'utf8' }),
  );
}
