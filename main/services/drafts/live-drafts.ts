import { replayDraft, type Draft } from '../../../trees/edit/index.ts';
import { recent, type Records, type StoredDraft } from '../../records/index.ts';

/** A draft on the services' own replay, after so many of its entries. */
interface LiveDraft {
  readonly draft: Draft;
  readonly entries: number;
}

export type LiveDrafts = ReturnType<typeof createLiveDrafts>;

/** The drafts that were in hand lately, so that an entry costs one step and not a replay. */
export function createLiveDrafts() {
  const live = recent<string, LiveDraft>(16);
  return {
    /** The draft after all of its entries. */
    at(records: Records, { draftId, entries }: Pick<StoredDraft, 'draftId' | 'entries'>): Draft {
      const known = live.get(draftId);
      if (known?.entries === entries) return known.draft;
      const draft = replayed(records, draftId);
      live.set(draftId, { draft, entries });
      return draft;
    },
    keep: (draftId: string, draft: Draft, entries: number): void => live.set(draftId, { draft, entries }),
    drop: (draftId: string): void => live.delete(draftId),
    clear: (): void => live.clear(),
  };
}

/** Entries were tried when they were recorded, so one that is refused now is a bug. */
function replayed(records: Records, draftId: string): Draft {
  const made = replayDraft(records.drafts.baseText(draftId), records.drafts.entries(draftId));
  if (made.ok) return made.draft;
  throw new Error(`replay-refused: draft ${draftId}, entry ${String(made.at)}: ${made.message}`);
}
