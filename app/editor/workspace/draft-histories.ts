import { sortingOf } from '../../../trees/belief/index.ts';
import type { Asked, Trouble } from '../../shell/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import type { SortedHistory } from '../reckoner/index.ts';

/** Sortings that are kept beside the first. */
const MOST = 8;

/**
 * The shop's history as a draft on a desk sorts it. It is asked for again only where bands, results or ids have come to be what they
 * were not before, once all edits are recorded, as it is the services that sort.
 */
export class DraftHistories {
  readonly #desk: EditorDesk;
  #known: readonly SortedHistory[];
  #running: Promise<Asked<SortedHistory>> | null = null;

  /** `first` is the history as the shop has it, where it is known by which tree that is sorted. */
  constructor(desk: EditorDesk, first: SortedHistory | null) {
    this.#desk = desk;
    this.#known = first === null ? [] : [first];
  }

  /** Those that are known. */
  get known(): readonly SortedHistory[] {
    return this.#known;
  }

  /** The history sorted as the draft is now; or why it cannot be had. */
  now(): Promise<Asked<SortedHistory>> {
    this.#running ??= this.#find().finally(() => (this.#running = null));
    return this.#running;
  }

  async #find(): Promise<Asked<SortedHistory>> {
    const { session, keeper, opened } = this.#desk;
    for (;;) {
      const known = this.#knownOf(this.#sorting());
      if (known !== undefined) return { ok: true, value: known };
      if (keeper === null || opened.kind !== 'draft' || !(await keeper.settled()))
        return { ok: false, trouble: NOT_KEPT };
      if (keeper.pending) continue;
      const sorting = this.#sorting();
      const entries = keeper.kept;
      const { draftId } = opened.full.draft;
      const asked = await session.ask((client, signal) => client.drafts.history({ draftId }, { signal }));
      if (!asked.ok) return asked;
      if (asked.value.entries === entries) this.#keep({ sorting, history: asked.value.history });
      else if (keeper.kept === entries) return { ok: false, trouble: OUTRUN };
    }
  }

  #sorting(): string {
    return sortingOf(this.#desk.tree);
  }

  #knownOf(sorting: string): SortedHistory | undefined {
    return this.#known.find((known) => known.sorting === sorting);
  }

  #keep(sorted: SortedHistory): void {
    const [first, ...others] = this.#known;
    this.#known = [...(first === undefined ? [] : [first]), ...others.slice(-(MOST - 1)), sorted];
  }
}

const NOT_KEPT: Trouble = {
  code: 'NOT_KEPT',
  message: 'The shop’s history cannot be sorted as this draft has it while its edits are not recorded.',
  where: 'this draft',
  help: 'It is sorted once they are.',
};

const OUTRUN: Trouble = {
  code: 'STALE_DRAFT',
  message:
    'The shop’s history cannot be sorted as this draft has it, as another window has edited the draft.',
  where: 'this draft',
  help: 'Read the draft again.',
};
