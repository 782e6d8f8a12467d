import type { DraftFrom, DraftSummary, RevisionSummary, TreeSummary } from '../../../main/contract/index.ts';
import { own } from '../../../trees/document/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import { openDrafts } from '../desk/open-drafts.svelte.ts';
import { newTreeText } from './new-tree.ts';

/** A tree as the list shows it: published or not, with its drafts in hand. */
export interface ListedTree {
  readonly treeId: string;
  readonly title: string;
  /** Null for a tree that is not published yet. */
  readonly tree: TreeSummary | null;
  /** What is said of its current revision; null until it is read. */
  readonly current: RevisionSummary | null;
  readonly revisions: number;
  readonly drafts: readonly DraftSummary[];
}

/** The shop's trees and the drafts in hand, and what is begun and ended from the list of them. */
export class TreeListing {
  readonly #session: Session;
  #asked = 0;
  /** By tree. */
  #revisions = $state.raw<Readonly<Record<string, readonly RevisionSummary[]>>>({});
  drafts = $state.raw<readonly DraftSummary[]>([]);
  read = $state(false);
  busy = $state(false);
  trouble = $state.raw<Trouble | null>(null);

  /** Published trees by title, then those that are not published yet. */
  readonly trees: readonly ListedTree[] = $derived.by(() => {
    const published = this.#session.trees.map((tree) => this.#listed(tree)).sort(byTitle);
    const others = this.drafts.filter((draft) => !published.some(({ treeId }) => treeId === draft.treeId));
    return [...published, ...others.map(unpublished).sort(byTitle)];
  });

  constructor(session: Session) {
    this.#session = session;
  }

  /** Reads trees, drafts and revisions (again). An answer that a later question has overtaken is let go. */
  async load(): Promise<void> {
    const asked = (this.#asked += 1);
    await this.#session.open();
    const drafts = await this.#session.ask((client, signal) => client.drafts.list(undefined, { signal }));
    const ids = this.#session.trees.map(({ treeId }) => treeId);
    const revisions = await Promise.all(
      ids.map((treeId) =>
        this.#session.ask((client, signal) => client.revisions.list({ treeId }, { signal })),
      ),
    );
    if (asked !== this.#asked) return;
    if (!drafts.ok) {
      this.trouble = drafts.trouble;
      return;
    }
    this.drafts = drafts.value;
    this.#revisions = Object.fromEntries(
      ids.map((treeId, index) => {
        const listed = revisions[index];
        return [treeId, listed?.ok === true ? listed.value : []];
      }),
    );
    this.trouble = revisions.find((listed) => !listed.ok)?.trouble ?? null;
    this.read = true;
  }

  /** Lets go of what has not been answered yet. */
  stop(): void {
    this.#asked += 1;
  }

  /** The draft to edit a tree in: the last one in hand of who is at work, else a new one on its current revision. Null where there is none. */
  async edit({ tree, drafts }: ListedTree): Promise<string | null> {
    const technicianId = this.#session.technician?.id;
    const own = drafts.find((draft) => draft.technicianId === technicianId);
    if (own !== undefined) return own.draftId;
    if (tree === null) return drafts[0]?.draftId ?? null;
    return this.#start({ kind: 'revision', revisionId: tree.revisionId });
  }

  /** Begins a draft of a new tree; null where it could not be begun. */
  async begin(title: string, family: string): Promise<string | null> {
    const taken = [...this.#session.trees, ...this.drafts].map(({ treeId }) => treeId);
    return this.#start({ kind: 'new', text: newTreeText(title, family, taken) });
  }

  async discard(draftId: string): Promise<boolean> {
    const technicianId = this.#technicianId();
    if (technicianId === null) return false;
    this.busy = true;
    const discarded = await this.#session.ask((client, signal) =>
      client.drafts.discard({ draftId, technicianId }, { signal }),
    );
    this.busy = false;
    this.trouble = discarded.ok ? null : discarded.trouble;
    if (!discarded.ok) return false;
    openDrafts.giveUp(draftId);
    await this.load();
    return true;
  }

  async #start(from: DraftFrom): Promise<string | null> {
    const technicianId = this.#technicianId();
    if (technicianId === null) return null;
    this.busy = true;
    const begun = await this.#session.ask((client, signal) =>
      client.drafts.start({ technicianId, from }, { signal }),
    );
    this.busy = false;
    this.trouble = begun.ok ? null : begun.trouble;
    return begun.ok ? begun.value.draft.draftId : null;
  }

  #technicianId(): string | null {
    const id = this.#session.technician?.id ?? null;
    if (id === null) this.trouble = NOBODY_AT_WORK;
    return id;
  }

  #listed(tree: TreeSummary): ListedTree {
    const { treeId, title } = tree;
    const revisions = own(this.#revisions, treeId) ?? [];
    const current = revisions.find((revision) => revision.current) ?? null;
    const drafts = this.drafts.filter((draft) => draft.treeId === treeId);
    return { treeId, title, tree, current, revisions: revisions.length, drafts };
  }
}

function unpublished(draft: DraftSummary): ListedTree {
  const { treeId, title } = draft;
  return { treeId, title, tree: null, current: null, revisions: 0, drafts: [draft] };
}

function byTitle(a: ListedTree, b: ListedTree): number {
  return a.title.localeCompare(b.title, 'en');
}

export const NOBODY_AT_WORK: Trouble = {
  code: 'NOBODY_AT_WORK',
  message: 'It is not said who is at work.',
  where: 'at the top of the window',
  help: 'Choose your name (Shop adds one), then do it again: drafts and revisions are recorded with a name.',
};
