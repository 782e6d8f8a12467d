import type { FromPlanner, ToPlanner } from './protocol.ts';

/** The planner's thread as the window holds it. */
export interface PlannerThread {
  readonly send: (message: ToPlanner) => void;
  readonly stop: () => void;
}

/** Starts a thread: `heard` is told each answer, `failed` once that it cannot run, or runs no more. */
export type StartThread = (
  heard: (answer: FromPlanner) => void,
  failed: (reason: string) => void,
) => PlannerThread;

/** Starts the planner in a worker of its own, so that the bench never waits for it. */
export const startWorker: StartThread = (heard, failed) => {
  const worker = new Worker(new URL('./planner-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromPlanner>) => heard(data));
  worker.addEventListener('error', ({ message }) =>
    // A script that could not be loaded gives an event without a message.
    failed(message === undefined || message === '' ? 'its program could not be loaded' : message),
  );
  worker.addEventListener('messageerror', () => failed('its answer could not be read'));
  return { send: (message) => worker.postMessage(message), stop: () => worker.terminate() };
};
