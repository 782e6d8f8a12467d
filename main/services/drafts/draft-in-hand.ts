import type { Records, StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';

const ENDED = {
  discarded: ['The draft was discarded.', 'Choose another draft, or begin a new one.'],
  published: ['The draft was published.', 'Begin a new draft on the tree’s current revision.'],
} as const;

/** A draft that is in hand: it is there and has not ended. */
export function draftInHand(records: Records, draftId: string): Answer<StoredDraft> {
  const draft = records.drafts.find(draftId);
  if (draft === null) {
    return trouble('NOT_FOUND', '/draftId', 'There is no such draft.', 'Choose a draft from the list.');
  }
  if (draft.ended === null) return answer(draft);
  const [message, help] = ENDED[draft.ended];
  return trouble('NOT_FOUND', '/draftId', message, help);
}

/** Somebody else has added to the draft, or ended it, in between. */
export function staleDraft(): Answer<never> {
  return trouble(
    'STALE_DRAFT',
    '/seq',
    'The draft has been added to since it was read. Nothing was recorded.',
    'Read the draft again, then make your change on what it says now.',
  );
}
