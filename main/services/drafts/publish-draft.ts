import { textOf } from '../../../trees/edit/index.ts';
import type { TreeSummary } from '../../contract/index.ts';
import type { Records, StoredDraft } from '../../records/index.ts';
import { answer, type Answer } from '../answer.ts';
import { workingTechnician } from '../append.ts';
import { draftInHand, staleDraft } from './draft-in-hand.ts';
import type { LiveDrafts } from './live-drafts.ts';
import { picturesOfDraft } from './draft-pictures.ts';
import { checked, picturesFor, staleRevision } from './publishable.ts';

/** What the app asks to have published. */
export interface PublishRequest {
  readonly draftId: string;
  /** The number of entries that the draft has as the app has shown it. */
  readonly seq: number;
  readonly technicianId: string;
  readonly note: string;
  /** The tree's current revision as the app has shown it. */
  readonly onto: string | null;
}

/**
 * Publishes a draft as its tree's current revision: the services' own replay of it, checked, with the pictures it shows.
 * Durable when it answers. Refused where the tree has a newer revision than the draft stands on: that one's changes
 * would be lost; and where the draft has entries that the app has not shown.
 */
export function publishDraft(
  records: Records,
  live: LiveDrafts,
  request: PublishRequest,
): Answer<TreeSummary> {
  const { technicianId, note, onto } = request;
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const stored = draftInHand(records, request.draftId);
  if (!stored.ok) return stored;
  const { draftId, entries, base, current } = stored.value;
  if (entries !== request.seq) return staleDraft();
  if (onto !== current || base !== current) return staleRevision();
  const made = revisionOf(records, live, stored.value, note);
  if (!made.ok) return made;
  const published = records.publish({
    revision: made.value,
    technicianId,
    onto,
    draft: { draftId, entries },
  });
  if (!published.ok) return published.code === 'STALE_DRAFT' ? staleDraft() : staleRevision();
  live.drop(draftId);
  return answer(published.summary);
}

function revisionOf(records: Records, live: LiveDrafts, stored: StoredDraft, note: string) {
  const draft = live.at(records, stored);
  if (!draft.ok) return draft;
  const bytes = new TextEncoder().encode(textOf(draft.value));
  const tree = checked(bytes, stored.treeId);
  if (!tree.ok) return tree;
  const pictures = picturesFor(records, tree.value, picturesOfDraft(records, stored));
  if (!pictures.ok) return pictures;
  return answer({ bytes, tree: tree.value, source: 'published' as const, note, pictures: pictures.value });
}
