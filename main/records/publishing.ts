import type { TreeSummary } from '../contract/index.ts';
import type { Room } from './database.ts';
import type { Drafts } from './drafts.ts';
import type { RevisionList } from './revision-list.ts';
import type { TreeHeads } from './tree-heads.ts';
import type { NewRevision } from './tree-revisions.ts';

/** A revision to be published by a technician, in the place of the one that is current now. */
export interface Publishing {
  readonly revision: NewRevision;
  readonly technicianId: string;
  /** The tree's current revision as the caller knows it; null where the tree is to be new. */
  readonly onto: string | null;
  /** The draft that ends with it, and how many entries it is taken to have. */
  readonly draft: { readonly draftId: string; readonly entries: number } | null;
}

export type Published =
  | { readonly ok: true; readonly summary: TreeSummary }
  | { readonly ok: false; readonly code: 'STALE_REVISION' | 'STALE_DRAFT' };

interface Parts {
  readonly heads: TreeHeads;
  readonly revisions: RevisionList;
  readonly drafts: Drafts;
  readonly addRevision: (revision: NewRevision) => TreeSummary;
}

/**
 * Publishes in one transaction: the revision, its author, the end of its draft, and the counts sorted again. Refused, and
 * nothing recorded, where somebody else has published the tree or added to the draft since.
 */
export function openPublishing(db: Room['db'], { heads, revisions, drafts, addRevision }: Parts) {
  return db.transaction(({ revision, technicianId, onto, draft }: Publishing): Published => {
    if (heads.revisionOf(revision.tree.id) !== onto) return { ok: false, code: 'STALE_REVISION' };
    const held = draft === null ? null : drafts.find(draft.draftId);
    if (draft !== null && (held?.ended !== null || held.entries !== draft.entries))
      return { ok: false, code: 'STALE_DRAFT' };
    const summary = addRevision(revision);
    const { revisionId } = summary;
    revisions.setAuthor(revisionId, technicianId);
    if (draft !== null) drafts.end({ draftId: draft.draftId, how: 'published', revisionId, technicianId });
    return { ok: true, summary };
  }).immediate;
}
