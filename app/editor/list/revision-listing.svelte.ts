import type { RevisionSummary } from '../../../main/contract/index.ts';
import type { Session, Trouble } from '../../shell/index.ts';
import { NOBODY_AT_WORK } from './tree-listing.svelte.ts';

/** All revisions of one tree, and which two of them are to be compared. */
export class RevisionListing {
  readonly #session: Session;
  readonly #treeId: string;
  #asked = 0;
  revisions = $state.raw<readonly RevisionSummary[]>([]);
  read = $state(false);
  trouble = $state.raw<Trouble | null>(null);
  /** Ids of the revisions to compare: what was, and what became of it. */
  from = $state('');
  to = $state('');
  readonly current: RevisionSummary | null = $derived(this.revisions.find(({ current }) => current) ?? null);
  readonly comparable: boolean = $derived(this.from !== '' && this.to !== '' && this.from !== this.to);

  constructor(session: Session, treeId: string) {
    this.#session = session;
    this.#treeId = treeId;
  }

  /** The tree's title as its current revision has it. */
  get title(): string {
    return this.#session.trees.find(({ treeId }) => treeId === this.#treeId)?.title ?? this.#treeId;
  }

  /** Reads the revisions (again); the newest and the one before it are then the two to compare. */
  async load(): Promise<void> {
    const asked = (this.#asked += 1);
    const listed = await this.#session.ask((client, signal) =>
      client.revisions.list({ treeId: this.#treeId }, { signal }),
    );
    if (asked !== this.#asked) return;
    this.trouble = listed.ok ? null : listed.trouble;
    if (!listed.ok) return;
    this.revisions = listed.value;
    const [newest, before] = listed.value;
    this.to = newest?.revisionId ?? '';
    this.from = before?.revisionId ?? '';
    this.read = true;
  }

  /** Lets go of what has not been answered yet. */
  stop(): void {
    this.#asked += 1;
  }

  /** Begins a draft on a revision; gives its id, or null where it could not be begun. */
  async edit(revisionId: string): Promise<string | null> {
    const technicianId = this.#session.technician?.id;
    if (technicianId === undefined) {
      this.trouble = NOBODY_AT_WORK;
      return null;
    }
    const from = { kind: 'revision', revisionId } as const;
    const begun = await this.#session.ask((client, signal) =>
      client.drafts.start({ technicianId, from }, { signal }),
    );
    this.trouble = begun.ok ? null : begun.trouble;
    return begun.ok ? begun.value.draft.draftId : null;
  }
}
