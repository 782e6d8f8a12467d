import type { FromProposer, ToProposer } from './protocol.ts';

/** The proposer's thread as the window holds it. */
export interface ProposerThread {
  readonly send: (message: ToProposer) => void;
  readonly stop: () => void;
}

/** Starts a thread: `heard` is told each answer, `failed` that it cannot run, or runs no more. */
export type StartProposer = (
  heard: (answer: FromProposer) => void,
  failed: (reason: string) => void,
) => ProposerThread;

/** Starts the proposer in a worker of its own, which is ended to give a search up. */
export const startProposerWorker: StartProposer = (heard, failed) => {
  const worker = new Worker(new URL('./proposer-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromProposer>) => heard(data));
  worker.addEventListener('error', ({ message }) =>
    // A script that could not be loaded gives an event without a message.
    failed(message === undefined || message === '' ? 'its program could not be loaded' : message),
  );
  worker.addEventListener('messageerror', () => failed('its answer could not be read'));
  return { send: (message) => worker.postMessage(message), stop: () => worker.terminate() };
};
