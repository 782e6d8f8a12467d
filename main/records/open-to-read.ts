import Sqlite from 'better-sqlite3';
import { openFactReader, type FactReader } from './fact-reader.ts';
import { failureOf, type RecordsFailure } from './failure.ts';
import { readMigrations, schemaNumber } from './migrate.ts';
import { strangerRefusal } from './open.ts';

export type ReadOpening =
  | { readonly ok: true; readonly reader: FactReader }
  | {
      readonly ok: false;
      readonly code: RecordsFailure['code'] | 'NEWER_DATABASE' | 'OLDER_DATABASE';
      readonly message: string;
      readonly help: string;
    };

/** Opens a file that may be anybody's for reading what the review is made of. Nothing is made or migrated, as `openRecords` would. */
export function openToRead(file: string): ReadOpening {
  try {
    const refusal = refusalOf(file);
    return refusal ?? { ok: true, reader: openFactReader(file) };
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return { ok: false, ...failure };
  }
}

function refusalOf(file: string): Extract<ReadOpening, { readonly ok: false }> | null {
  const newest = readMigrations().length;
  const db = new Sqlite(file, { readonly: true, fileMustExist: true, timeout: 5000 });
  try {
    const stranger = strangerRefusal(db, newest);
    if (stranger !== null) return { ok: false, ...stranger };
    return schemaNumber(db) < newest ? { ok: false, ...OLDER } : null;
  } finally {
    db.close();
  }
}

const OLDER = {
  code: 'OLDER_DATABASE',
  message: 'These records were last open in an older Ohmward, which did not keep what is to be read here.',
  help: 'Open them once with this Ohmward (npm start -- --db FILE), then ask again. The file is left as it is.',
} as const;
