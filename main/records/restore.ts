import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import { instant, type Clock } from './clock.ts';
import { failureOf, type RecordsFailure } from './failure.ts';

export type Restored =
  | {
      readonly ok: true;
      /** Where the former database is now; null where there was none. */ readonly aside: string | null;
    }
  | { readonly ok: false; readonly failure: RecordsFailure };

/**
 * Puts a backup in the database's place. The caller has closed its connection, and chose among the listed backups. The backup is copied in full before
 * anything moves; the former database is moved aside with its write-ahead log, never deleted.
 */
export function restoreBackup(file: string, backup: string, clock: Clock): Restored {
  const incoming = `${file}.incoming`;
  try {
    if (existsSync(file)) settleLog(file);
    rmSync(incoming, { force: true });
    copyFileSync(backup, incoming, constants.COPYFILE_EXCL);
    sync(incoming);
    const aside = existsSync(file) ? `${file}.aside-${instant(clock()).replaceAll(/[-:.]/g, '')}` : null;
    if (aside !== null) moveAside(file, aside);
    renameSync(incoming, file);
    sync(dirname(file));
    return { ok: true, aside };
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return { ok: false, failure };
  }
}

/**
 * Brings the write-ahead log into the database, which also shows whether another program has it open: its later writes
 * would go to the file moved aside. A database too damaged for that moves aside with its log as they are.
 */
function settleLog(file: string): void {
  try {
    const db = new Sqlite(file, { timeout: 1000 });
    try {
      db.pragma('journal_mode = DELETE');
    } finally {
      db.close();
    }
  } catch (error) {
    const code = failureOf(error)?.code;
    if (code !== 'DAMAGED' && code !== 'NOT_A_DATABASE' && code !== 'UNREADABLE') throw error;
  }
}

// The log goes first; the database itself stays under its name, too, until the backup takes it in one step. So there is
// no moment at which the program, started again after a cut, would find no database and begin an empty one.
function moveAside(file: string, aside: string): void {
  for (const suffix of ['-shm', '-wal']) {
    if (existsSync(file + suffix)) renameSync(file + suffix, aside + suffix);
  }
  try {
    linkSync(file, aside);
  } catch {
    copyFileSync(file, aside, constants.COPYFILE_EXCL); // a file system without hard links
  }
}

function sync(path: string): void {
  const handle = openSync(path, 'r');
  fsyncSync(handle);
  closeSync(handle);
}
