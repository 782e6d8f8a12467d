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

  /** The pointers of what is chosen, for copying, cutting and deleting. */
  readonly pointers = $derived.by((): readonly string[] => {
    const graph = this.#graph();
    if (this.chosen.size > 0) return [...this.chosen].flatMap((id) => graph.node.get(id)?.at ?? []);
    return this.current === undefined ? [] : [this.current];
  });

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
    if (spot.node.kind !== 'elsewhere')
      this.#props().onselect?.(spot.kind === 'result' ? spot.result.at : spot.node.at, this.pointers);
  }

  /** Chooses all of these boxes, those chosen before included. */
  chooseAll(ids: readonly string[]): void {
    this.chosen = idsOf([...this.chosen, ...ids]);
    const last = ids.at(-1);
    if (last === undefined) return;
    this.current = last;
    const at = this.#graph().node.get(last)?.at;
    if (at !== undefined) this.#props().onselect?.(at, this.pointers);
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

  /** Follows the workspace to what it has selected: the spot, or the box that holds it. False where it is not in the drawing. */
  follow(pointer: string): boolean {
    const graph = this.#graph();
    for (let at = pointer; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) {
      const spot = spotOf(graph, at);
      if (spot === undefined) continue;
      if (spot.id === this.current) return false;
      this.current = spot.id;
      this.chosen = spot.kind === 'result' ? NO_IDS : idsOf([boxOf(spot)]);
      return true;
    }
    return false;
  }

  /** The step and result that a new end is being chosen for. */
  readonly leadingFrom = $derived.by((): { step: DrawnStep | null; result: string | null } | undefined => {
    if (this.leading === undefined) return undefined;
    const spot = spotOf(this.#graph(), this.leading);
    if (spot?.kind === 'result') return { step: spot.node, result: spot.result.result };
    return spot?.node.kind === 'start' ? { step: null, result: null } : undefined;
  });
}
