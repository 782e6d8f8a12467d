import type { FromReplayer, ToReplayer } from './protocol.ts';

/** Starts a replay: `heard` is told all that comes of it, `failed` once that it cannot run. Gives what stops it. */
export type StartReplay = (
  asked: ToReplayer,
  heard: (message: FromReplayer) => void,
  failed: (reason: string) => void,
) => () => void;

/** Replays in a worker made for it, so that the window never waits and a replay can be stopped at any moment. */
export const startReplay: StartReplay = (asked, heard, failed) => {
  const worker = new Worker(new URL('./replay-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromReplayer>) => heard(data));
  worker.addEventListener('error', ({ message }) =>
    // A script that could not be loaded gives an event without a message.
    failed(message === undefined || message === '' ? 'its program could not be loaded' : message),
  );
  worker.addEventListener('messageerror', () => failed('its answer could not be read'));
  worker.postMessage(asked);
  return () => worker.terminate();
};
