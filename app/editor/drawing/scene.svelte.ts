import type { Graph } from './graph.ts';
import { idsOf, nearer, NO_IDS } from './ids.ts';
import { sameShape } from './place-graph.ts';
import { boundsOf, NOWHERE, type Placed, type Point } from './placed.ts';
import type { Placer } from './placer.ts';
import {
  bringing,
  fitted,
  holding,
  LEAST_ZOOM,
  MOST_ZOOM,
  opening,
  overlap,
  seen,
  zoomed,
  type Viewport,
} from './view.ts';

/** Boxes are there as elements, with their words, from this zoom on and up to this many at once; else they are painted. */
const DETAIL = 0.33;
const MOST_ELEMENTS = 120;
/** Elements are made this much of the pane ahead of its edges. */
const AHEAD = 0.12;

/** Where things stand and what of it is seen: placement, viewport, and the boxes that are there as elements. */
export class Scene {
  viewport = $state.raw<Viewport>({ x: 0, y: 0, zoom: 1 });
  width = $state(0);
  height = $state(0);
  placed = $state.raw(NOWHERE);
  /** Ids of the boxes that are there as elements. */
  mounted = $state.raw(NO_IDS);
  /** Has the path been laid out, so that it can be seen? */
  ready = $state(false);
  /** Is the path laid out as it hangs together now? */
  laid = $state(false);
  /** Is it being moved just now by a gesture? */
  moving = $state(false);
  readonly #placer: Placer;
  #asked: Graph | undefined;
  /** The box that was to be brought into sight before it was laid out. */
  #awaited: string | undefined;
  #frame = 0;

  constructor(placer: Placer) {
    this.#placer = placer;
  }

  readonly pane = $derived({ width: this.width, height: this.height });
  readonly bounds = $derived(boundsOf(this.placed.boxes.values()));
  readonly inView = $derived.by(() => {
    const view = seen(this.viewport, this.pane, AHEAD);
    return [...this.placed.boxes].flatMap(([id, box]) => (overlap(box, view) ? [id] : []));
  });
  /** Is the drawing seen too small, or too much of it, for words? */
  readonly simply = $derived(
    this.inView.length > MOST_ELEMENTS ||
      (this.viewport.zoom < DETAIL && this.inView.length > MOST_ELEMENTS / 4),
  );

  /** Are words too small to be read, so that boxes that are elements all the same show as the painted ones do? */
  readonly tiny = $derived(this.simply && this.viewport.zoom < DETAIL);

  /**
   * Lays a graph out if it hangs together otherwise than the last one. `anchor` stays where it is on the screen; where it is new,
   * the box that leads to it does, and it is brought into sight if it was asked for.
   */
  async lay(graph: Graph, anchor: () => string | undefined): Promise<void> {
    const before = this.#asked;
    if (before !== undefined && sameShape(before, graph)) return;
    this.#asked = graph;
    this.laid = false;
    const placed = await this.#placer.place(graph);
    if (this.#asked !== graph) return;
    const samePath = before?.symptom === graph.symptom && this.ready;
    const chosen = anchor();
    this.viewport = samePath
      ? holding(steady(graph, chosen, this.placed), this.placed, placed, this.viewport)
      : opening(boundsOf(placed.boxes.values()), placed.boxes.get(graph.nodes[0]?.id ?? ''), this.pane);
    this.placed = placed;
    if (chosen !== undefined && (!samePath || chosen === this.#awaited)) this.bring(chosen);
    this.#awaited = undefined;
    this.ready = true;
    this.laid = true;
  }

  /** Brings the elements nearer to what is wanted, some a frame; those of `always` at once. Returns the undoing. */
  mount(always: readonly string[]): () => void {
    const wanted = idsOf(
      [...(this.simply ? [] : this.inView), ...always].filter((id) => this.placed.boxes.has(id)),
    );
    const step = (): void => {
      const next = nearer(this.mounted, wanted, always);
      if (next === this.mounted) return;
      this.mounted = next;
      this.#frame = requestAnimationFrame(step);
    };
    this.#frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(this.#frame);
  }

  /** A place on the screen, given from the pane's corner, as a point of the drawing. */
  pointAt(x: number, y: number): Point {
    const { viewport } = this;
    return { x: (x - viewport.x) / viewport.zoom, y: (y - viewport.y) / viewport.zoom };
  }

  /** Moves the view as little as shows a box whole; one that is not laid out yet, as soon as it is. */
  bring(id: string): void {
    const box = this.placed.boxes.get(id);
    this.#awaited = box === undefined ? id : undefined;
    if (box === undefined) return;
    // What is to be read has to be large enough for it.
    const from =
      this.viewport.zoom < DETAIL
        ? zoomed(this.viewport, DETAIL / this.viewport.zoom, this.pane)
        : this.viewport;
    this.viewport = bringing(box, from, this.pane);
  }

  fit(): void {
    this.viewport = fitted(this.bounds, this.pane);
  }

  zoom(factor: number): void {
    this.viewport = zoomed(this.viewport, factor, this.pane);
  }

  readonly canZoomIn = $derived(this.viewport.zoom < MOST_ZOOM);
  readonly canZoomOut = $derived(this.viewport.zoom > LEAST_ZOOM);
}

/** What stays where it is on the screen: a box, or the one that leads to it where it was not there before. */
function steady(graph: Graph, id: string | undefined, before: Placed): string | undefined {
  if (id === undefined || before.boxes.has(id)) return id;
  return graph.branches.find(({ from, to }) => to === id && before.boxes.has(from))?.from;
}
