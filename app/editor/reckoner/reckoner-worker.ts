import { openAnswering } from './answering.ts';
import type { ToReckoner } from './protocol.ts';

const answering = openAnswering(() => performance.now());
/** Posts to itself: comes back after whatever the window has sent meanwhile, and sooner than any timer. */
const { port1: wake, port2: woken } = new MessageChannel();
let isAwake = false;

self.addEventListener('message', ({ data }: MessageEvent<ToReckoner>) => {
  answering.take(data);
  if (isAwake) return;
  isAwake = true;
  wake.postMessage(null);
});

woken.onmessage = () => {
  const answer = answering.work();
  isAwake = answer !== 'done';
  if (answer === 'done') return;
  if (answer !== null) self.postMessage(answer);
  wake.postMessage(null);
};
