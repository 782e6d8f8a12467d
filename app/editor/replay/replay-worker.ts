import type { ToReplayer } from './protocol.ts';
import { replayAll } from './replayer.ts';

self.addEventListener('message', ({ data }: MessageEvent<ToReplayer>) =>
  replayAll(data, (message) => self.postMessage(message)),
);
