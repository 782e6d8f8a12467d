import { Worker } from 'node:worker_threads';
import type { AnyReviewAnswer, ReviewQuestion } from './question.ts';

/** What the thread is given: the database, and a cell that is not 0 once it is to end. */
export interface ReviewThreadData {
  readonly file: string;
  readonly stopped: Int32Array;
}

/** How the thread answered: or that it was stopped before it could, or came to a bad end. */
export type ThreadReply =
  | { readonly kind: 'answered'; readonly answer: AnyReviewAnswer }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'died'; readonly because: string };

export interface ReviewThread {
  /** One question at a time. */
  ask(question: ReviewQuestion): Promise<ThreadReply>;
  readonly isAlive: () => boolean;
  /** Has it end by itself, a question that it is at broken off. */
  stop(): Promise<void>;
}

// Beside this module: as written when run from source, as built when run from the bundle.
const THREAD_FILE = new URL(
  import.meta.url.endsWith('.ts') ? './review-thread.ts' : './review-thread.js',
  import.meta.url,
);

/**
 * Left to itself the engine lets what a tree's evaluation throws away pile up to some hundred MiB first. The columns do not
 * count: they lie outside of the heap.
 */
const LIMITS = { maxYoungGenerationSizeMb: 6, maxOldGenerationSizeMb: 512 };

/** Starts the thread that reviews are made in; it opens the database, `file`, at the first question. */
export function startThread(file: string, entry: URL = THREAD_FILE): ReviewThread {
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const workerData: ReviewThreadData = { file, stopped };
  const worker = new Worker(entry, { workerData, resourceLimits: LIMITS });
  let settle: (reply: ThreadReply) => void = () => undefined;
  let isAlive = true;
  let because = 'it ended by itself';
  worker.on('message', (answer: AnyReviewAnswer) => settle({ kind: 'answered', answer }));
  worker.on('error', (error: unknown) => {
    because = error instanceof Error ? error.message : String(error);
  });
  const ended = new Promise<void>((resolve) => {
    worker.once('exit', () => {
      isAlive = false;
      const wasStopped = Atomics.load(stopped, 0) !== 0;
      settle(wasStopped ? { kind: 'stopped' } : { kind: 'died', because });
      resolve();
    });
  });
  return {
    ask: (question) =>
      new Promise((resolve) => {
        settle = resolve;
        worker.postMessage(question);
      }),
    isAlive: () => isAlive,
    async stop() {
      // Not ended from outside: while it loads SQLite's addon that takes the whole process with it.
      Atomics.store(stopped, 0, 1);
      if (isAlive) worker.postMessage(null);
      await ended;
    },
  };
}
