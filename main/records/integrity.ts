import { runTask } from './tasks.ts';

/** How the full check of the database stands that runs beside the work after opening. */
export interface Integrity {
  readonly state: () => 'checking' | 'sound' | 'damaged';
  /** Ends when the check does; `unknown` where it could not be made, with the reason. */
  readonly done: Promise<'sound' | 'damaged' | { readonly unknown: string }>;
  stop(): Promise<void>;
}

/** Starts the check on a thread and a connection of its own. */
export function startIntegrityCheck(file: string): Integrity {
  let state: 'checking' | 'sound' | 'damaged' = 'checking';
  const { outcome, stop } = runTask({ kind: 'check', file });
  const done = outcome.then(
    (result) => {
      if (!result.ok && result.failure.code !== 'DAMAGED') return { unknown: result.failure.message };
      state = result.ok ? 'sound' : 'damaged';
      return state;
    },
    (error: unknown) => ({ unknown: error instanceof Error ? error.message : String(error) }),
  );
  return { state: () => state, done, stop };
}
