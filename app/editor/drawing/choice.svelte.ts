import type { DrawingProps } from './drawing-props.ts';
import type { DrawnStep, Graph } from './graph.ts';
import { idsOf, NO_IDS, toggled } from './ids.ts';
import { boxOf, spotOf, type Spot } from './neighbours.ts';

/** What is chosen in a drawing: one spot the keyboard stands on, others chosen with it, and a branch being led elsewhere. */
export class Choice {
  /** The boxes chosen together. Holds the current one's too, unless that is a way out. */
  chosen = $state.raw(NO_IDS);
  /** The id the keyboard stands on; undefined until something was chosen. */
  current = $state<string>();
  /** The way out whose new end is being chosen, by its pointer; the start's own by the start's. */
  leading = $state<string>();
  readonly #graph: () => Graph;
  readonly #props: () => DrawingProps;

  constructor(graph: () => Graph, props: () => DrawingProps) {
    this.#graph = graph;
    this.#props = props;
  }

  /** Where the keyboard stands: what is current, or the start. */
  readonly spot = $derived.by((): Spot | undefined => {
    const graph = this.#graph();
    const here = this.current === undefined ? undefined : spotOf(graph, this.current);
    const start = graph.nodes[0];
    return here ?? (start === undefined ? undefined : spotOf(graph, start.id));
  });

  readonly #boxes = $derived.by(() => [...this.chosen].flatMap((id) => this.#graph().node.get(id) ?? []));

  /** The pointers of the steps and findings chosen: what can be copied, cut and deleted. The rest is not this path's own. */
  readonly pointers = $derived.by((): readonly string[] =>
    this.#boxes.flatMap(({ kind, at }) => (kind === 'step' || kind === 'finding' ? [at] : [])),
  );

  /** Is something chosen, and the keyboard not merely at the start for want of it? */
  readonly any = $derived.by(() => this.current !== undefined && this.spot?.id === this.current);

  /** Chooses a spot alone, or with others (`more`), and tells the workspace. */
  choose(id: string, more = false): void {
    const spot = spotOf(this.#graph(), id);
    if (spot === undefined) return;
    this.current = spot.id;
    // While a new end is chosen, what the form shows stays.
    if (this.leading !== undefined) return;
    this.chosen = spot.kind === 'result' ? NO_IDS : more ? toggled(this.chosen, spot.id) : idsOf([spot.id]);
    // Another path's place is not told: the workspace would leave this one for it.
    if (spot.node.kind === 'elsewhere') return;
    const at = spot.kind === 'result' ? spot.result.at : spot.node.at;
    const all = spot.kind === 'result' ? [at] : this.#boxes.map((box) => box.at);
    // What was just taken out of several is not what is shown.
    this.#props().onselect?.(all.includes(at) ? at : (all.at(-1) ?? at), all);
  }

  /** Chooses all of these boxes, those chosen before included. */
  chooseAll(ids: readonly string[]): void {
    this.chosen = idsOf([...this.chosen, ...ids]);
    const last = ids.at(-1);
    if (last === undefined) return;
    this.current = last;
    const at = this.#graph().node.get(last)?.at;
    if (at !== undefined)
      this.#props().onselect?.(
        at,
        this.#boxes.map((box) => box.at),
      );
  }

  /** Has the next box chosen become the new end of the way out the keyboard stands on, or of the start's. */
  startLeading(): void {
    const spot = this.spot;
    if (this.#props().readonly === true || spot === undefined) return;
    if (spot.kind === 'result' || spot.node.kind === 'start') this.leading = spot.id;
  }

  clear(): void {
    this.chosen = NO_IDS;
    this.leading = undefined;
  }

  /**
   * Follows the workspace to what it has selected: the spot, or the box that holds it, and all others marked. False where it
   * is not in the drawing, or chosen here already.
   */
  follow(pointer: string, marked: readonly string[]): boolean {
    const graph = this.#graph();
    const others = marked.flatMap((at) => (spotOf(graph, at)?.kind === 'node' ? [at] : []));
    if (others.length > 1) this.chosen = idsOf(others);
    const spot = nearestSpot(graph, pointer);
    if (spot === undefined) {
      // What is done here would be done to something else than the workspace shows.
      this.current = undefined;
      this.chosen = NO_IDS;
      return false;
    }
    if (spot.id === this.current) return false;
    this.current = spot.id;
    if (others.length < 2) this.chosen = spot.kind === 'result' ? NO_IDS : idsOf([boxOf(spot)]);
    return true;
  }

  /** The step and result that a new end is being chosen for. */
  readonly leadingFrom = $derived.by((): { step: DrawnStep | null; result: string | null } | undefined => {
    if (this.leading === undefined) return undefined;
    const spot = spotOf(this.#graph(), this.leading);
    if (spot?.kind === 'result') return { step: spot.node, result: spot.result.result };
    return spot?.node.kind === 'start' ? { step: null, result: null } : undefined;
  });
}

/** The spot at a pointer, or the nearest one around it. */
function nearestSpot(graph: Graph, pointer: string): Spot | undefined {
  for (let at = pointer; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) {
    const spot = spotOf(graph, at);
    if (spot !== undefined) return spot;
  }
  return undefined;
}
