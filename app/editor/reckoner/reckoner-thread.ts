import type { FromReckoner, ToReckoner } from './protocol.ts';

/** The reckoner's thread as the window holds it. */
export interface ReckonerThread {
  readonly send: (message: ToReckoner) => void;
  readonly stop: () => void;
}

/** Starts a thread: `heard` is told each answer, `failed` once that it cannot run, or runs no more. */
export type StartReckoner = (
  heard: (answer: FromReckoner) => void,
  failed: (reason: string) => void,
) => ReckonerThread;

/** Starts the reckoner in a worker of its own, so that typing never waits for it. */
export const startReckonerWorker: StartReckoner = (heard, failed) => {
  const worker = new Worker(new URL('./reckoner-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromReckoner>) => heard(data));
  worker.addEventListener('error', ({ message }) =>
    // A script that could not be loaded gives an event without a message.
    failed(message === undefined || message === '' ? 'its program could not be loaded' : message),
  );
  worker.addEventListener('messageerror', () => failed('its answer could not be read'));
  return { send: (message) => worker.postMessage(message), stop: () => worker.terminate() };
};
