export { appendEntries } from './append-entries.ts';
export { draftHistory, type DraftHistory } from './draft-history.ts';
export { draftPicture, picturesOfDraft } from './draft-pictures.ts';
export { draftInHand, staleDraft } from './draft-in-hand.ts';
export { createLiveDrafts, type LiveDrafts } from './live-drafts.ts';
export { publishDraft, type PublishRequest } from './publish-draft.ts';
export { checked, picturesFor, staleRevision } from './publishable.ts';
export { draftInFull, draftSummary } from './show-draft.ts';
export { freeTreeId, startDraft } from './start-draft.ts';
