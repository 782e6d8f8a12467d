import { closeSync, fsyncSync, openSync } from 'node:fs';
import { parentPort, workerData } from 'node:worker_threads';
import Sqlite from 'better-sqlite3';
import { DAMAGED, failureOf } from './failure.ts';
import { openTallies } from './tallies.ts';
import type { Task, TaskData, TaskOutcome } from './tasks.ts';

// In one go, so that no other connection's commit makes the copy start again.
const ALL_PAGES = 0x7fffffff;

const { task, stopped } = workerData as TaskData;
const outcome = isStopped() ? null : await outcomeOf(task);
if (outcome !== null && !isStopped()) parentPort?.postMessage(outcome);

/** Whether nobody waits for the outcome any more. */
function isStopped(): boolean {
  return Atomics.load(stopped, 0) !== 0;
}

async function outcomeOf(task: Task): Promise<TaskOutcome> {
  try {
    return task.kind === 'check' ? check(task.file) : await copy(task.file, task.to);
  } catch (error) {
    const failure = failureOf(error);
    if (failure === null) throw error;
    return { ok: false, failure };
  }
}

/** Checks every page and row, table by table so that the thread can end in between, and every reference. */
function check(file: string): TaskOutcome {
  const db = new Sqlite(file, { readonly: true, fileMustExist: true });
  try {
    const tables = db
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
      .pluck();
    const sound = tables.all().every((table) => isStopped() || isSound(db, table));
    return sound ? { ok: true, jobs: jobsIn(db) } : { ok: false, failure: DAMAGED };
  } finally {
    db.close();
  }
}

function isSound(db: Sqlite.Database, table: string): boolean {
  const name = `"${table.replaceAll('"', '""')}"`;
  const problems = db.prepare<[], string>(`PRAGMA integrity_check(${name})`).pluck().all();
  const dangling = db.prepare(`PRAGMA foreign_key_check(${name})`).all();
  return problems.length === 1 && problems[0] === 'ok' && dangling.length === 0;
}

/** Copies the database as it is at one moment into one file that needs no other beside it, checks it, and syncs it. */
async function copy(file: string, to: string): Promise<TaskOutcome> {
  const source = new Sqlite(file, { readonly: true, fileMustExist: true, timeout: 5000 });
  try {
    await source.backup(to, { progress: () => ALL_PAGES });
  } finally {
    source.close();
  }
  const copied = new Sqlite(to, { fileMustExist: true });
  try {
    copied.pragma('journal_mode = DELETE');
    const problems = copied.prepare<[], string>('PRAGMA quick_check').pluck().all();
    if (problems.length !== 1 || problems[0] !== 'ok') return { ok: false, failure: DAMAGED };
    return { ok: true, jobs: jobsIn(copied) };
  } finally {
    copied.close();
    sync(to);
  }
}

function jobsIn(db: Sqlite.Database): { readonly all: number; readonly closed: number } {
  const { open, closed } = openTallies(db)();
  return { all: open + closed, closed };
}

function sync(file: string): void {
  const handle = openSync(file, 'r+');
  fsyncSync(handle);
  closeSync(handle);
}
