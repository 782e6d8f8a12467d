import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backupFolder, outdated, type StoredBackup } from '../../main/records/backups.ts';
import { closedSpeakerJob, openShop, recordsOf, startSmallJob, type TempShop } from '../support/temp-shop.ts';

const EVENTS = 'SELECT id, job_id, seq, kind, body FROM job_event ORDER BY id';

function rowsIn(file: string, sql = EVENTS): unknown[] {
  const db = new Sqlite(file, { readonly: true });
  try {
    return db.prepare(sql).raw().all();
  } finally {
    db.close();
  }
}

async function backedUp(shop: TempShop) {
  const made = await recordsOf(shop).backups.make();
  if (!made.ok) throw new Error(made.failure.message);
  return made.backup;
}

describe('a backup', () => {
  it('holds all that was recorded, needs no other file, and says how many jobs it holds', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    await startSmallJob(shop, 'dark-screen');
    const backup = await backedUp(shop);
    expect(backup).toMatchObject({ jobs: 2, closed: 1, bytes: readFileSync(backup.file).length });
    expect(rowsIn(backup.file)).toEqual(rowsIn(shop.file));
    expect(readdirSync(backupFolder(shop.file))).toEqual([basename(backup.file)]);
    expect(recordsOf(shop).backups.list()).toEqual([backup]);
  });

  it('leaves nothing unfinished behind where it cannot be made', async () => {
    const shop = await openShop();
    writeFileSync(backupFolder(shop.file), 'in the way');
    expect(await recordsOf(shop).backups.make()).toMatchObject({
      ok: false,
      failure: { code: 'UNREADABLE' },
    });
    rmSync(backupFolder(shop.file));
    expect(await backedUp(shop)).toMatchObject({ jobs: 0 });
  });

  it('of a damaged database is not kept, so that it cannot push a good one out', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const good = await backedUp(shop);
    const page = Number(
      rowsIn(shop.file, "SELECT max(pageno) FROM dbstat WHERE name = 'job_event'").flat()[0],
    );
    await shop.services.desk.reopen(() => {
      const bytes = readFileSync(shop.file);
      writeFileSync(shop.file, bytes.fill(0xa5, (page - 1) * 4096, page * 4096));
    });
    expect(await recordsOf(shop).backups.make()).toMatchObject({ ok: false, failure: { code: 'DAMAGED' } });
    expect(readdirSync(backupFolder(shop.file))).toEqual([basename(good.file)]);
  });

  it('is let go when it is neither among the last ten nor the last of its month', () => {
    const days = fc.array(fc.integer({ min: 0, max: 900 }), { maxLength: 60 });
    fc.assert(
      fc.property(days, (offsets) => {
        const backups = offsets.sort((a, b) => b - a).map(backupOfDay);
        const dropped = new Set(outdated(backups));
        const kept = backups.filter((backup) => !dropped.has(backup));
        const months = (of: readonly StoredBackup[]) => [
          ...new Set(of.map(({ madeAt }) => madeAt.slice(0, 7))),
        ];
        expect(kept.slice(0, 10)).toEqual(backups.slice(0, 10));
        expect(months(kept)).toEqual(months(backups));
        expect(kept.length).toBeLessThanOrEqual(10 + months(backups).length);
      }),
    );
  });
});

function backupOfDay(day: number, index: number): StoredBackup {
  const madeAt = new Date(Date.UTC(2026, 0, 1) + day * 86_400_000).toISOString();
  return { file: `${String(index)}`, madeAt, bytes: 1, jobs: 1, closed: 1 };
}

describe('a backup that was cut off', () => {
  it('is taken away a day later, when the next one is made', async () => {
    const shop = await openShop({ clock: () => Date.now() + 2 * 86_400_000 });
    mkdirSync(backupFolder(shop.file));
    writeFileSync(`${backupFolder(shop.file)}/unfinished-1-20260101T000000000Z`, 'half');
    const backup = await backedUp(shop);
    expect(readdirSync(backupFolder(shop.file))).toEqual([basename(backup.file)]);
  });
});

describe('restoring a backup', () => {
  it('brings its jobs back, and keeps the former database beside it', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const then = rowsIn(shop.file);
    const backup = await backedUp(shop);
    await closedSpeakerJob(shop);
    const now = rowsIn(shop.file);
    const state = await shop.client.backups.restore({ file: backup.file });
    expect(state).toMatchObject({ state: 'ready', closedJobs: 1 });
    expect(rowsIn(shop.file)).toEqual(then);
    const aside = readdirSync(dirname(shop.file)).filter((name) => name.includes('.aside-'));
    expect(aside).toHaveLength(1);
    expect(rowsIn(`${dirname(shop.file)}/${aside[0] ?? ''}`)).toEqual(now);
    expect(recordsOf(shop).rebuild()).toMatchObject({ differed: [], jobs: 1 });
  });

  it('lets the work go on in the restored records', async () => {
    const shop = await openShop();
    const { jobId, append } = await startSmallJob(shop, 'no-sound');
    const backup = await backedUp(shop);
    await append({ kind: 'change', axis: 'shell', to: 'open' });
    await shop.client.backups.restore({ file: backup.file });
    expect((await shop.client.jobs.get({ jobId })).events).toEqual([]);
    await expect(append({ kind: 'change', axis: 'power', to: 'on' })).rejects.toMatchObject({
      code: 'STALE_SEQUENCE',
    });
    await closedSpeakerJob(shop);
    expect(recordsOf(shop).tallies()).toMatchObject({ open: 1, closed: 1 });
  });

  it('mends a database that can no longer be opened', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const backup = await backedUp(shop);
    await shop.services.desk.reopen(() => writeFileSync(shop.file, 'ruined'));
    expect(await shop.client.shop.open()).toMatchObject({
      state: 'unavailable',
      backups: [{ file: backup.file }],
    });
    expect(await shop.client.backups.restore({ file: backup.file })).toMatchObject({
      state: 'ready',
      closedJobs: 1,
    });
    const aside = readdirSync(dirname(shop.file)).filter((name) => name.includes('.aside-'));
    expect(readFileSync(`${dirname(shop.file)}/${aside[0] ?? ''}`, 'utf8')).toBe('ruined');
  });

  it('takes only a backup from the list', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    for (const file of [shop.file, '../../etc/passwd', '', `${backupFolder(shop.file)}/../shop.sqlite`]) {
      await expect(shop.client.backups.restore({ file })).rejects.toMatchObject({ code: 'NOT_FOUND' });
    }
    expect(recordsOf(shop).tallies()).toMatchObject({ closed: 1 });
  });

  it('is refused while another program has the database open, and the work goes on', async () => {
    const shop = await openShop();
    const backup = await backedUp(shop);
    const other = new Sqlite(shop.file);
    other.prepare('SELECT count(*) FROM job').get();
    await closedSpeakerJob(shop);
    await expect(shop.client.backups.restore({ file: backup.file })).rejects.toMatchObject({
      code: 'RECORDS_UNAVAILABLE',
    });
    other.close();
    expect(await shop.client.shop.open()).toMatchObject({ state: 'ready', closedJobs: 1 });
  });
});

describe('backups made of themselves', () => {
  it('come each time the set number of jobs has been closed', async () => {
    const shop = await openShop();
    recordsOf(shop).settings.set('backup-after-jobs', 2);
    await closedSpeakerJob(shop);
    expect(existsSync(backupFolder(shop.file))).toBe(false);
    await closedSpeakerJob(shop);
    await shop.services.settled();
    expect(recordsOf(shop).backups.list()).toMatchObject([{ closed: 2 }]);
  });

  it('come on quit where anything was recorded since the last, and not otherwise', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    await backedUp(shop);
    await startSmallJob(shop, 'dark-screen');
    const { list } = recordsOf(shop).backups;
    await shop.services.close();
    expect(list()).toMatchObject([{ jobs: 2 }, { jobs: 1 }]);
    const again = await openShop({ file: shop.file });
    await again.services.close();
    expect(list()).toHaveLength(2);
  });
});
