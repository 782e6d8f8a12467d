import { openProposing } from './proposing.ts';
import type { ToProposer } from './protocol.ts';

const proposing = openProposing(() => performance.now());

self.addEventListener('message', ({ data }: MessageEvent<ToProposer>) => {
  self.postMessage(proposing(data));
});
