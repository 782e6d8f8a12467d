import type { Test, Tree } from '../../../trees/document/index.ts';
import {
  ascending,
  expectedOf,
  layoutBands,
  placeOf,
  resorting,
  separationsOf,
  setLimit,
  type Limit,
  type RecordedReading,
  type Results,
  type Suggestion,
} from '../../../trees/limits/index.ts';
import { limitTitle } from './band-words.ts';
import { limitWords, type LimitUnit } from './limit-text.ts';
import { draggedTo, keyedTo, neighboursOf } from './move-limit.ts';
import { scaleFor } from './scale.ts';
import { stripOf } from './strip.ts';

/** What the number line of a test is given, and whom it tells of changes. */
export interface BandProps {
  readonly test: Test;
  readonly testId: string;
  readonly tree: Tree;
  /** Readings of closed jobs with a confirmed finding; null while they are being fetched. */
  readonly readings: readonly RecordedReading[] | null;
  /** There are more readings than these, which are the newest. */
  readonly more?: boolean;
  /** The results as they are published, to say what the draft's bands would change; absent where there are none. */
  readonly published?: Results | undefined;
  readonly readonly: boolean;
  /** The results changed; `what` is what to call it, and changes with the same `joins` in a row are one to undo. */
  readonly onchange: (results: Results, what: string, options: { readonly joins?: string }) => void;
}

/** Pixels that a mark of the strip plot takes. */
export const MARK = 7;

/** A test's bands on their number line: what is drawn, what is chosen, and a limit while it is moved. */
export class BandDesk {
  readonly #props: () => BandProps;
  /** The line's width in pixels, as it is drawn. */
  width = $state(0);
  /** The results with a limit dragged, not yet let go of. */
  dragged = $state.raw<Results | null>(null);
  #draggedFrom: { readonly index: number; readonly limit: Limit } | null = null;
  #chosen = $state.raw<{ readonly below: string; readonly above: string } | null>(null);

  readonly authored = $derived.by(() => this.#props().test.results);
  readonly results: Results = $derived(this.dragged ?? this.authored);
  readonly layout = $derived(layoutBands(this.results));
  /** Whether all bands are on one line; else they are ratios to different readings. */
  readonly drawable = $derived(this.layout.references.length === 1);
  readonly reference: string | undefined = $derived(this.layout.references.find((of) => of !== undefined));
  readonly unit: LimitUnit = $derived.by(() =>
    this.reference === undefined ? (this.#props().test.reading?.unit ?? 'V') : null,
  );
  readonly recorded: readonly RecordedReading[] = $derived.by(() => this.#props().readings ?? []);
  /** The line stays as it is while a limit is dragged along it. */
  readonly scale = $derived.by(() => {
    const { test } = this.#props();
    const limits = layoutBands(this.authored).limits.map(({ at }) => at);
    return scaleFor(
      limits,
      this.recorded.flatMap((reading) => placeOf(test, reading) ?? []),
    );
  });
  readonly test: Test = $derived.by(() => ({ ...this.#props().test, results: this.results }));
  readonly expected = $derived.by(() => expectedOf(this.tree, this.testId));
  readonly strip = $derived(
    stripOf(this.test, this.expected, this.recorded, this.scale, Math.max(1, Math.floor(this.width / MARK))),
  );
  readonly separations = $derived.by(() => separationsOf(this.tree, this.testId, this.recorded));
  /** The limit that is chosen; else the first that would be better elsewhere, or that readings say anything of. */
  readonly chosen = $derived.by(() => {
    const same = this.separations.find(
      ({ below, above }) => below === this.#chosen?.below && above === this.#chosen.above,
    );
    const first = (matches: (kind: Suggestion['kind']) => boolean) =>
      this.separations.find(({ suggestion }) => matches(suggestion.kind));
    return (
      same ??
      first((kind) => kind === 'move') ??
      first((kind) => kind !== 'too-few') ??
      first(() => true) ??
      null
    );
  });
  /** What the bands as they stand, or as they are dragged, change against the published ones; null where nothing does. */
  readonly changed = $derived.by(() => {
    const { published } = this.#props();
    const before = this.dragged === null ? published : this.authored;
    if (before === undefined || this.recorded.length === 0 || before === this.results) return null;
    return resorting(this.tree, this.testId, this.results, this.recorded, before);
  });

  constructor(props: () => BandProps) {
    this.#props = props;
  }

  get tree(): Tree {
    return this.#props().tree;
  }

  get testId(): string {
    return this.#props().testId;
  }

  get readonly(): boolean {
    return this.#props().readonly;
  }

  /** What would change if the chosen limit were moved there. */
  ifMoved(limit: Limit, to: number) {
    return resorting(this.tree, this.testId, setLimit(this.authored, limit, to), this.recorded);
  }

  /** The limit of the line that stands between two bands, in order or not. */
  limitBetween(below: string, above: string): Limit | null {
    const held = this.layout.limits.filter(
      ({ ends, starts }) => ends.includes(below) || starts.includes(above),
    );
    const [first] = held;
    if (first === undefined) return null;
    // Beside a gap or an overlap the two ends move together.
    return { at: first.at, ends: [below], starts: [above] };
  }

  /** Chooses the limit between the bands that meet in it, for what the readings say of it. */
  choose({ ends, starts }: Pick<Limit, 'ends' | 'starts'>): void {
    const order = ascending(this.layout.bands).map(({ result }) => result);
    const above = starts[0] ?? order[order.indexOf(ends[0] ?? '') + 1];
    const below = ends[0] ?? order[order.indexOf(starts[0] ?? '') - 1];
    if (below !== undefined && above !== undefined) this.#chosen = { below, above };
  }

  drag(index: number, place: number): void {
    if (this.readonly) return;
    if (this.#draggedFrom === null) {
      const limit = this.layout.limits[index];
      if (limit === undefined) return;
      this.#draggedFrom = { index, limit };
    }
    const { limit, index: at } = this.#draggedFrom;
    const between = neighboursOf(layoutBands(this.authored).limits, at);
    const to = draggedTo(this.scale, place, 1 / Math.max(1, this.width), between);
    this.dragged = to === limit.at ? null : setLimit(this.authored, limit, to);
  }

  /** Lets go of a dragged limit: what was dragged is the change. */
  drop(): void {
    const [dragged, from] = [this.dragged, this.#draggedFrom];
    this.forget();
    if (dragged === null || from === null) return;
    const to = layoutBands(dragged).limits[from.index];
    this.change(dragged, this.#moveWords(from.limit, to?.at ?? from.limit.at));
  }

  /** A dragged limit goes back to where it was. */
  forget(): void {
    this.dragged = null;
    this.#draggedFrom = null;
  }

  /** Moves a limit by a key; true where the key is one that moves. */
  key(index: number, event: Pick<KeyboardEvent, 'key' | 'shiftKey'>): boolean {
    const limit = this.layout.limits[index];
    if (limit === undefined || this.dragged !== null) return false;
    const to = keyedTo(this.scale, limit.at, event, neighboursOf(this.layout.limits, index));
    if (to === null) return false;
    if (!this.readonly && to !== limit.at) this.move(limit, to, `${this.testId} limit ${String(index)}`);
    return true;
  }

  move(limit: Limit, to: number, joins?: string): void {
    // What joins is undone as one, wherever each of them went.
    const what = this.#moveWords(limit, joins === undefined ? to : undefined);
    this.change(setLimit(this.authored, limit, to), what, joins);
  }

  change(results: Results, what: string, joins?: string): void {
    this.#props().onchange(results, what, joins === undefined ? {} : { joins });
  }

  #moveWords(limit: Limit, to?: number): string {
    const title = limitTitle(this.authored, limit);
    const where = to === undefined ? '' : ` to ${limitWords(to, this.unit)}`;
    return `Move ${title.charAt(0).toLowerCase()}${title.slice(1)}${where}`;
  }
}
