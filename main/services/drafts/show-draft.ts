import type { DraftInFull, DraftSummary } from '../../contract/index.ts';
import type { Records, StoredDraft } from '../../records/index.ts';
import { picturesOfDraft } from './draft-pictures.ts';
import type { LiveDrafts } from './live-drafts.ts';

/** A draft as the contract's list has it. */
export function draftSummary(records: Records, live: LiveDrafts, stored: StoredDraft): DraftSummary {
  const { draftId, treeId, base, current, technicianId, technician, startedAt, lastAt, entries, ownBytes } =
    stored;
  return {
    draftId,
    treeId,
    title: live.title(records, stored, treeId),
    base,
    current,
    technicianId,
    technician,
    startedAt,
    lastAt,
    entries,
    fromFile: ownBytes === 1,
  };
}

/** A draft in full, as the contract has it. */
export function draftInFull(records: Records, live: LiveDrafts, stored: StoredDraft): DraftInFull {
  return {
    draft: draftSummary(records, live, stored),
    baseText: records.drafts.baseText(stored.draftId),
    entries: records.drafts.entries(stored.draftId),
    pictures: [...picturesOfDraft(records, stored)],
  };
}
