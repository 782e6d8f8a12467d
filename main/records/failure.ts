import Sqlite from 'better-sqlite3';

/** Why the records could not do what was asked, in words for whoever stands at the bench. */
export interface RecordsFailure {
  readonly code: 'DISK_FULL' | 'READ_ONLY' | 'DAMAGED' | 'IN_USE' | 'NOT_A_DATABASE' | 'UNREADABLE';
  readonly message: string;
  readonly help: string;
}

/** What an error from SQLite or from the file system means for the records; null where it is neither, and so a bug. */
export function failureOf(error: unknown): RecordsFailure | null {
  if (error instanceof Sqlite.SqliteError) return ofSqlite(error.code);
  if (error instanceof Error && 'code' in error && 'syscall' in error) return ofSystem(String(error.code));
  return null;
}

/** The result codes are those of sqlite.org/rescode.html, extended codes included. */
function ofSqlite(code: string): RecordsFailure | null {
  if (code === 'SQLITE_FULL') return DISK_FULL;
  if (code.startsWith('SQLITE_READONLY')) return READ_ONLY;
  if (code.startsWith('SQLITE_CORRUPT')) return DAMAGED;
  if (code === 'SQLITE_NOTADB') return NOT_A_DATABASE;
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) return IN_USE;
  if (code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_CANTOPEN') || code === 'SQLITE_PERM')
    return { ...UNREADABLE, message: `${UNREADABLE.message} (${code})` };
  return null;
}

function ofSystem(code: string): RecordsFailure {
  if (code === 'ENOSPC' || code === 'EDQUOT') return DISK_FULL;
  if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM') return READ_ONLY;
  if (code === 'EBUSY' || code === 'ETXTBSY') return IN_USE;
  return { ...UNREADABLE, message: `${UNREADABLE.message} (${code})` };
}

const DISK_FULL: RecordsFailure = {
  code: 'DISK_FULL',
  message: 'The disk is full. Nothing was recorded, and nothing that was recorded before is lost.',
  help: 'Make room on the disk that holds the records, then do it again.',
};

const READ_ONLY: RecordsFailure = {
  code: 'READ_ONLY',
  message: 'The records cannot be written: the file or its folder is read-only.',
  help: 'Give yourself the right to write the file and its folder, or choose another file with --db.',
};

export const DAMAGED: RecordsFailure = {
  code: 'DAMAGED',
  message: 'The records are damaged.',
  help: 'Put the last good backup in their place. The damaged file is kept beside it.',
};

export const NOT_A_DATABASE: RecordsFailure = {
  code: 'NOT_A_DATABASE',
  message: 'This file does not hold Ohmward’s records.',
  help: 'Choose the right file with --db, or put a backup in its place. The file is left as it is.',
};

const IN_USE: RecordsFailure = {
  code: 'IN_USE',
  message: 'Another program has the records locked.',
  help: 'Close the other program or wait until it is done, then do it again.',
};

export const UNREADABLE: RecordsFailure = {
  code: 'UNREADABLE',
  message: 'The records cannot be read or written.',
  help: 'See that the disk is connected and sound, and that the folder is there, then do it again.',
};
