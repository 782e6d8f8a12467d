import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { Backup } from '../contract/index.ts';
import { listBackups } from './backups.ts';
import { systemClock, type Clock } from './clock.ts';
import type { Database } from './database.ts';
import { failureOf, NOT_A_DATABASE, type RecordsFailure } from './failure.ts';
import { systemIds, type Ids } from './ids.ts';
import { migrate, readMigrations, schemaNumber, type Migration } from './migrate.ts';
import { assembleRecords, type Records } from './records.ts';

export interface OpenOptions {
  /** The database's file; it and its folder are made where they are not there. */
  readonly file: string;
  readonly ids?: Ids;
  readonly clock?: Clock;
  readonly migrations?: readonly Migration[];
}

export interface OpenRefusal {
  readonly ok: false;
  readonly code: RecordsFailure['code'] | 'NEWER_DATABASE';
  readonly message: string;
  readonly help: string;
  readonly backups: readonly Backup[];
}

export type Opening = { readonly ok: true; readonly records: Records } | OpenRefusal;

/** "Ohmw": marks a SQLite file as ours (sqlite.org/fileformat2.html, application ID). */
export const APPLICATION_ID = 0x4f686d77;

/** Opens the records, making or migrating them where that is due. What can be expected to go wrong is a value, never thrown. */
export function openRecords(options: OpenOptions): Opening {
  const { file, ids = systemIds(), clock = systemClock, migrations = readMigrations() } = options;
  let db: Database | undefined;
  try {
    mkdirSync(dirname(file), { recursive: true });
    mustBeWritable(file);
    db = new Sqlite(file, { timeout: 5000 });
    const refusal = strangerRefusal(db, migrations.length);
    if (refusal !== null) return refused(file, refusal, db);
    prepare(db);
    migrate(db, migrations, clock);
    return { ok: true, records: assembleRecords({ db, file, ids, clock }) };
  } catch (error) {
    const failure = failureOf(error);
    if (failure !== null) return refused(file, failure, db);
    db?.close();
    throw error;
  }
}

/** SQLite finds out only at the first write; a technician should not. */
function mustBeWritable(file: string): void {
  accessSync(dirname(file), constants.W_OK);
  if (existsSync(file)) accessSync(file, constants.R_OK | constants.W_OK);
}

/** Before anything is written: whether the file is somebody else's, or from a later version of ours. */
export function strangerRefusal(db: Database, newest: number): Omit<OpenRefusal, 'ok' | 'backups'> | null {
  const application = applicationId(db);
  const isEmpty = db.prepare<[], number>('SELECT count(*) FROM sqlite_schema').pluck().get() === 0;
  if (application !== APPLICATION_ID && !(application === 0 && isEmpty)) return NOT_A_DATABASE;
  if (schemaNumber(db) <= newest) return null;
  return {
    code: 'NEWER_DATABASE',
    message: 'These records were written by a newer Ohmward than this one.',
    help: 'Start the newer Ohmward, or choose another file with --db. The file is left as it is.',
  };
}

function applicationId(db: Database): number {
  return Number(db.pragma('application_id', { simple: true }));
}

/** What every connection that writes is set to, whatever the file was made with. */
export function prepare(db: Database): void {
  // Only where it is new: an opening that changes nothing writes nothing, and waits for no disk.
  if (applicationId(db) !== APPLICATION_ID) db.pragma(`application_id = ${String(APPLICATION_ID)}`);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  db.pragma('recursive_triggers = ON'); // so that REPLACE, too, meets the triggers that keep the truth
  db.pragma('trusted_schema = OFF');
  db.pragma(`journal_size_limit = ${String(16 * 1024 * 1024)}`);
}

function refused(
  file: string,
  failure: Omit<OpenRefusal, 'ok' | 'backups'>,
  db: Database | undefined,
): OpenRefusal {
  db?.close();
  return { ok: false, ...failure, backups: backupsBeside(file) };
}

function backupsBeside(file: string): readonly Backup[] {
  try {
    return listBackups(file);
  } catch (error) {
    if (failureOf(error) === null) throw error;
    return []; // a folder that cannot be read has nothing to offer; why is said by the refusal itself
  }
}
