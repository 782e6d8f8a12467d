import { openAnswerer } from './answerer.ts';
import type { ToPlanner } from './protocol.ts';

const answerer = openAnswerer(() => performance.now());

self.addEventListener('message', ({ data }: MessageEvent<ToPlanner>) => {
  const answer = answerer(data);
  if (answer !== null) self.postMessage(answer);
});
