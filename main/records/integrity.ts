import { runTask, type RunningTask } from './tasks.ts';

type State = 'checking' | 'sound' | 'damaged';

/** How the full check of the database stands that runs beside the work after opening. */
export interface Integrity {
  readonly state: () => State;
  /** Ends when the check does; `unknown` where it could not be made, with the reason. */
  readonly done: Promise<'sound' | 'damaged' | { readonly unknown: string }>;
  stop(): Promise<void>;
}

/**
 * Starts the check on a thread and a connection of its own, once what waits on the opening has had its turn: it reads the
 * whole file, which must not be in the way of the first screen.
 */
export function startIntegrityCheck(file: string): Integrity {
  let state: State = 'checking';
  let task: RunningTask | null = null;
  const check = Promise.withResolvers<Awaited<Integrity['done']>>();
  const start = setImmediate(() => {
    task = runTask({ kind: 'check', file });
    task.outcome.then(
      (result) => {
        if (!result.ok && result.failure.code !== 'DAMAGED')
          return check.resolve({ unknown: result.failure.message });
        state = result.ok ? 'sound' : 'damaged';
        return check.resolve(state);
      },
      (error: unknown) => check.resolve({ unknown: error instanceof Error ? error.message : String(error) }),
    );
  });
  return {
    state: () => state,
    done: check.promise,
    async stop() {
      clearImmediate(start);
      await task?.stop();
    },
  };
}
