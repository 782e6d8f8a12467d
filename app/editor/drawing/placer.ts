import ELK from 'elkjs/lib/elk-api.js';
import { elkGraphOf, placedOf } from './elk-graph.ts';
import type { Graph } from './graph.ts';
import { placeLayered } from './layered.ts';
import type { LayeredAnswer, LayeredQuestion } from './layered-worker.ts';
import { partsOf, together } from './place-graph.ts';
import { NOWHERE, type Placed, type Shapes } from './placed.ts';

/**
 * Boxes and lines together up to which ELK lays a path out. It draws the better picture, but takes more than a second for
 * 2,000 steps with 6,000 branches even at its least thorough, where our own placement takes some tens of milliseconds.
 */
const ELK_UP_TO = 600;

type PlaceShapes = (shapes: Shapes) => Promise<Placed>;

/** Lays graphs out, off the window's thread. */
export interface Placer {
  readonly place: (graph: Graph) => Promise<Placed>;
  readonly stop: () => void;
}

/** Starts nothing until it is asked; `stop` ends what it started. Where a worker cannot be had, our own placement runs in the window. */
export function openPlacer(): Placer {
  const elk = openElk();
  const layered = openLayered();
  const placeShapes: PlaceShapes = (shapes) => {
    const { length } = shapes.shapes;
    if (length === 0) return Promise.resolve(NOWHERE);
    return length + shapes.lines.length > ELK_UP_TO ? layered.place(shapes) : elk.place(shapes);
  };
  return {
    place: async (graph) => {
      const parts = partsOf(graph);
      return together(parts, await placeShapes(parts.reached), await placeShapes(parts.apart));
    },
    stop: () => {
      elk.stop();
      layered.stop();
    },
  };
}

function openElk(): { readonly place: PlaceShapes; readonly stop: () => void } {
  let elk: { readonly api: InstanceType<typeof ELK>; readonly failed: Promise<never> } | undefined;
  const start = () => {
    const worker = new Worker(new URL('./elk-worker.ts', import.meta.url), { type: 'module' });
    const failed = new Promise<never>((_, reject) => {
      worker.addEventListener('error', () => reject(new Error('the layout’s program does not run')));
    });
    return { api: new ELK({ workerFactory: () => worker, algorithms: ['layered'] }), failed };
  };
  return {
    place: async (shapes) => {
      try {
        elk ??= start();
        return placedOf(shapes, await Promise.race([elk.api.layout(elkGraphOf(shapes)), elk.failed]));
      } catch {
        return placeLayered(shapes);
      }
    },
    stop: () => elk?.api.terminateWorker(),
  };
}

function openLayered(): { readonly place: PlaceShapes; readonly stop: () => void } {
  let worker: Worker | undefined;
  let turn = 0;
  const ask = (running: Worker, question: LayeredQuestion): Promise<Placed> =>
    new Promise((resolve, reject) => {
      const heard = ({ data }: MessageEvent<LayeredAnswer>): void => {
        if (data.turn !== question.turn) return;
        running.removeEventListener('message', heard);
        resolve(data.placed);
      };
      running.addEventListener('message', heard);
      running.addEventListener('error', () => reject(new Error('the placement’s program does not run')), {
        once: true,
      });
      running.postMessage(question);
    });
  return {
    place: async (shapes) => {
      try {
        worker ??= new Worker(new URL('./layered-worker.ts', import.meta.url), { type: 'module' });
        return await ask(worker, { turn: (turn += 1), shapes });
      } catch {
        return placeLayered(shapes);
      }
    },
    stop: () => worker?.terminate(),
  };
}
