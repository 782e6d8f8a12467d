import { execFileSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { answer, guarded } from '../../main/services/answer.ts';
import { openShop, recordsOf, startSmallJob, tempFolder, libraryOf } from '../support/temp-shop.ts';

const canMount = process.platform === 'linux' && process.getuid?.() === 0;

/** A disk of its own of so many kilobytes; needs root on Linux. */
function smallDisk(kilobytes: number): string {
  const disk = join(tempFolder(), 'disk');
  mkdirSync(disk);
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${String(kilobytes)}k`, 'tmpfs', disk]);
  onTestFinished(() => void execFileSync('umount', ['-l', disk]));
  return disk;
}

/** Writes until nothing more goes on the disk. */
function fill(disk: string): string {
  const filler = join(disk, 'filler');
  const handle = openSync(filler, 'w');
  try {
    for (;;) writeSync(handle, Buffer.alloc(4096));
  } catch (error) {
    expect(error).toMatchObject({ code: 'ENOSPC' });
  } finally {
    closeSync(handle);
  }
  return filler;
}

/** Opens the shell, closes it, and so on: an event that the chart takes any number of times. */
function turnShell(turns: number) {
  return { kind: 'change', axis: 'shell', to: turns % 2 === 0 ? 'open' : 'closed' } as const;
}

describe.skipIf(!canMount)('a full disk (needs root on Linux to make one)', () => {
  it('refuses the event, loses nothing, and takes the same event when there is room', async () => {
    const disk = smallDisk(6000);
    const shop = await openShop({ file: join(disk, 'shop.sqlite'), library: libraryOf(tempFolder()) });
    const { append, jobId } = await startSmallJob(shop, 'no-sound');
    await append(turnShell(0));
    const filler = fill(disk);
    let taken = 1;
    const failure = await (async () => {
      for (;;) {
        await append(turnShell(taken));
        taken += 1;
      }
    })().catch((error: unknown) => error);
    expect(failure).toMatchObject({ code: 'DISK_FULL', data: { help: expect.stringContaining('room') } });
    expect((await shop.client.jobs.get({ jobId })).events).toHaveLength(taken);
    expect(await recordsOf(shop).backups.make()).toMatchObject({ ok: false, failure: { code: 'DISK_FULL' } });
    rmSync(filler);
    await append(turnShell(taken));
    expect((await shop.client.jobs.get({ jobId })).events).toHaveLength(taken + 1);
    expect(recordsOf(shop).rebuild().differed).toEqual([]);
  });

  it('refuses to open a new database, and opens it when there is room', async () => {
    const disk = smallDisk(200);
    const filler = fill(disk);
    const file = join(disk, 'shop.sqlite');
    expect(openRecords({ file })).toMatchObject({ ok: false, code: 'DISK_FULL' });
    rmSync(filler);
    execFileSync('mount', ['-o', 'remount,size=6000k', disk]);
    const opening = openRecords({ file });
    expect(opening.ok).toBe(true);
    if (opening.ok) await opening.records.close();
  });

  it('says that a disk is mounted read-only', async () => {
    const disk = smallDisk(6000);
    const opening = openRecords({ file: join(disk, 'shop.sqlite') });
    if (!opening.ok) throw new Error(opening.message);
    await opening.records.close();
    execFileSync('mount', ['-o', 'remount,ro', disk]);
    expect(openRecords({ file: join(disk, 'shop.sqlite') })).toMatchObject({ ok: false, code: 'READ_ONLY' });
  });
});

describe('a failure of SQLite at run time', () => {
  it.each([
    ['READ_ONLY', 'readonly', true],
    ['RECORDS_UNAVAILABLE', 'locked by another program', false],
  ])('is answered as %s where the database is %s', (code, _, readonly) => {
    const file = join(tempFolder(), 'shop.sqlite');
    const other = new Sqlite(file);
    other.exec('CREATE TABLE t (a) ; BEGIN IMMEDIATE');
    onTestFinished(() => void other.close());
    const db = new Sqlite(file, { readonly, timeout: 0 });
    onTestFinished(() => void db.close());
    const answered = guarded(file, () => answer(db.exec('INSERT INTO t VALUES (1)')));
    expect(answered).toMatchObject({ ok: false, trouble: { code, where: file, help: expect.any(String) } });
  });

  it('that is a bug of ours stays an error', () => {
    const db = new Sqlite(':memory:');
    expect(() => guarded('', () => answer(db.exec('SELECT nonsense')))).toThrow('nonsense');
  });
});
