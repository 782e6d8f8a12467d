import { Worker } from 'node:worker_threads';
import type { RecordsFailure } from './failure.ts';

/** Long work on the database that is done beside the app, on a thread and a connection of its own. */
export type Task =
  | { readonly kind: 'check'; readonly file: string }
  | { readonly kind: 'copy'; readonly file: string; readonly to: string };

/** What the task came to. A copy is checked before it counts as made. */
export type TaskOutcome =
  | { readonly ok: true; readonly jobs: { readonly all: number; readonly closed: number } }
  | { readonly ok: false; readonly failure: RecordsFailure };

export interface RunningTask {
  readonly outcome: Promise<TaskOutcome>;
  /** Ends the task where it has not ended; the outcome then never comes. */
  stop(): Promise<void>;
}

// Beside this module: as written when run from source, as built when run from the bundle.
const TASK_FILE = new URL(import.meta.url.endsWith('.ts') ? './task.ts' : './task.js', import.meta.url);

/** What a task's thread is given: the task, and a cell that is not 0 once it is to end. */
export interface TaskData {
  readonly task: Task;
  readonly stopped: Int32Array;
}

/** Starts a task. A bug in it rejects the outcome. */
export function runTask(task: Task): RunningTask {
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const workerData: TaskData = { task, stopped };
  const worker = new Worker(TASK_FILE, { workerData });
  const ended = new Promise<void>((resolve) => worker.once('exit', () => resolve()));
  const outcome = new Promise<TaskOutcome>((resolve, reject) => {
    worker.once('message', resolve);
    worker.once('error', reject);
  });
  return {
    outcome,
    stop: async () => {
      // The thread ends by itself: one that is ended from outside while it loads SQLite's addon takes the whole process with it.
      Atomics.store(stopped, 0, 1);
      await ended;
    },
  };
}
