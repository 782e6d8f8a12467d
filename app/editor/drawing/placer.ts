import ELK from 'elkjs/lib/elk-api.js';
import { elkGraphOf, placedOf } from './elk-graph.ts';
import type { Graph } from './graph.ts';
import { placeLayered } from './layered.ts';
import { partsOf, together } from './place-graph.ts';
import { NOWHERE, type Placed, type Shapes } from './placed.ts';

/**
 * Boxes and lines together up to which ELK lays a path out. It draws the better picture, but takes more than a second for
 * 2,000 steps with 6,000 branches even at its least thorough, where our own placement takes some tens of milliseconds.
 */
const ELK_UP_TO = 600;

type PlaceShapes = (shapes: Shapes) => Promise<Placed>;

/** Lays graphs out. */
export interface Placer {
  readonly place: (graph: Graph) => Promise<Placed>;
  readonly stop: () => void;
}

/**
 * Lays small paths out by ELK in a worker, which it starts when first asked and ends by `stop`, and others by our own placement,
 * which takes less than a worker takes to start. That does for ELK too where its worker cannot be had.
 */
export function openPlacer(): Placer {
  const elk = openElk();
  const placeShapes: PlaceShapes = (shapes) => {
    const { length } = shapes.shapes;
    if (length === 0) return Promise.resolve(NOWHERE);
    return length + shapes.lines.length > ELK_UP_TO
      ? Promise.resolve(placeLayered(shapes))
      : elk.place(shapes);
  };
  return {
    place: async (graph) => {
      const parts = partsOf(graph);
      return together(parts, await placeShapes(parts.reached), await placeShapes(parts.apart));
    },
    stop: elk.stop,
  };
}

function openElk(): { readonly place: PlaceShapes; readonly stop: () => void } {
  let elk: { readonly api: InstanceType<typeof ELK>; readonly failed: Promise<never> } | undefined;
  const start = () => {
    const worker = new Worker(new URL('./elk-worker.ts', import.meta.url), { type: 'module' });
    const failed = new Promise<never>((_, reject) => {
      worker.addEventListener('error', () => reject(new Error('the layout’s program does not run')));
    });
    // Said to whoever waits; an error while nobody does is heard of at the next question.
    failed.catch(() => undefined);
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
