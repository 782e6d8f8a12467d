import { mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Backup } from '../contract/index.ts';
import { instant, type Clock } from './clock.ts';
import { failureOf, type RecordsFailure } from './failure.ts';
import { runTask } from './tasks.ts';

/** A backup, and how many of its jobs are closed. */
export type StoredBackup = Backup & { readonly closed: number };

export type Made =
  | { readonly ok: true; readonly backup: StoredBackup }
  | { readonly ok: false; readonly failure: RecordsFailure };

const NAME = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)(\d{3})Z-(\d+)-of-(\d+)-jobs-closed\.db$/;
const KEPT = 10;
const UNFINISHED = 'unfinished-';
/** Milliseconds after which no backup is still being made. */
const ABANDONED_AFTER = 24 * 60 * 60_000;

/** Where a database's backups are: a folder beside it. */
export function backupFolder(file: string): string {
  return join(dirname(file), `${basename(file)}.backups`);
}

/** The backups there are, newest first; none where there is no folder. All that is shown of them is in their names. */
export function listBackups(file: string): readonly StoredBackup[] {
  const folder = backupFolder(file);
  const names = statSync(folder, { throwIfNoEntry: false })?.isDirectory() ? readdirSync(folder) : [];
  return names
    .flatMap((name) => described(folder, name) ?? [])
    .sort((a, b) => (a.madeAt < b.madeAt ? 1 : a.madeAt > b.madeAt ? -1 : 0));
}

/**
 * Makes a backup beside the work: copied at one moment, checked, synced, and only then given its name. The last ten are
 * kept, and the last one of each month.
 */
export async function makeBackup(file: string, clock: Clock): Promise<Made> {
  const folder = backupFolder(file);
  const madeAt = instant(clock());
  const unfinished = join(folder, `${UNFINISHED}${String(process.pid)}-${compact(madeAt)}`);
  try {
    mkdirSync(folder, { recursive: true });
    dropAbandoned(folder, clock());
    const outcome = await runTask({ kind: 'copy', file, to: unfinished }).outcome;
    if (!outcome.ok) return outcome;
    const { all, closed } = outcome.jobs;
    const name = `${compact(madeAt)}-${String(closed)}-of-${String(all)}-jobs-closed.db`;
    renameSync(unfinished, join(folder, name));
    dropOld(file);
    const backup = described(folder, name);
    if (backup === null) throw new Error(`backup-name: ${name}`);
    return { ok: true, backup };
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return { ok: false, failure };
  } finally {
    dropUnfinished(unfinished);
  }
}

/** Takes away what a backup that failed has left, as far as the file system lets it. */
function dropUnfinished(file: string): void {
  for (const suffix of ['', '-journal', '-wal', '-shm']) {
    try {
      rmSync(file + suffix, { force: true });
    } catch (error) {
      if (failureOf(error) === null) throw error; // the failure itself has been told
    }
  }
}

/** The backups that are let go: all but the last ten and the last one of each month. */
export function outdated(backups: readonly StoredBackup[]): readonly StoredBackup[] {
  const months = new Set<string>();
  return backups.filter(({ madeAt }, index) => {
    const month = madeAt.slice(0, 7);
    const lastOfMonth = !months.has(month);
    months.add(month);
    return index >= KEPT && !lastOfMonth;
  });
}

function dropOld(file: string): void {
  for (const backup of outdated(listBackups(file))) rmSync(backup.file, { force: true });
}

/** Backups that were cut off by a kill or a power cut. One that is being made by another process is young. */
function dropAbandoned(folder: string, now: number): void {
  for (const name of readdirSync(folder).filter((name) => name.startsWith(UNFINISHED))) {
    const file = join(folder, name);
    const changed = statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? now;
    if (now - changed > ABANDONED_AFTER) rmSync(file, { force: true });
  }
}

function compact(moment: string): string {
  return moment.replaceAll(/[-:.]/g, '');
}

function described(folder: string, name: string): StoredBackup | null {
  const [, year, month, day, hour, minute, second, millisecond, closed, jobs] = NAME.exec(name) ?? [];
  const file = join(folder, name);
  const stat = statSync(file, { throwIfNoEntry: false });
  if (year === undefined || stat === undefined) return null;
  const madeAt = `${year}-${month ?? ''}-${day ?? ''}T${hour ?? ''}:${minute ?? ''}:${second ?? ''}.${millisecond ?? ''}Z`;
  return { file, madeAt, bytes: stat.size, jobs: Number(jobs), closed: Number(closed) };
}
