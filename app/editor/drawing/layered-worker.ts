import { placeLayered } from './layered.ts';
import type { Placed, Shapes } from './placed.ts';

/** What the worker is asked, and what it answers; `turn` pairs the two. */
export interface LayeredQuestion {
  readonly turn: number;
  readonly shapes: Shapes;
}
export interface LayeredAnswer {
  readonly turn: number;
  readonly placed: Placed;
}

self.addEventListener('message', ({ data: { turn, shapes } }: MessageEvent<LayeredQuestion>) => {
  self.postMessage({ turn, placed: placeLayered(shapes) } satisfies LayeredAnswer);
});
