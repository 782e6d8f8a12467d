import { replayDraft, type Draft } from '../../../trees/edit/index.ts';
import { recent, type Records, type StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';

/** A draft on the services' own replay, after so many of its entries. */
interface LiveDraft {
  readonly draft: Draft;
  readonly entries: number;
}

type Which = Pick<StoredDraft, 'draftId' | 'entries'>;

export type LiveDrafts = ReturnType<typeof createLiveDrafts>;

/** The drafts that were in hand lately, so that an entry costs one step and not a replay. */
export function createLiveDrafts() {
  const live = recent<string, LiveDraft>(16);
  const titles = recent<string, { readonly title: string; readonly entries: number }>(1000);
  const at = (records: Records, { draftId, entries }: Which): Answer<Draft> => {
    const known = live.get(draftId);
    if (known?.entries === entries) return answer(known.draft);
    const made = replayDraft(records.drafts.baseText(draftId), records.drafts.entries(draftId));
    if (!made.ok) return unsteady(made.at, made.message);
    live.set(draftId, { draft: made.draft, entries });
    return answer(made.draft);
  };
  return {
    /** The draft after all of its entries; refused where one of them cannot be made again. */
    at,
    /** The title that it has then, for lists: kept for far more drafts than are in hand. `otherwise` where it cannot be made again. */
    title(records: Records, which: Which, otherwise: string): string {
      const known = titles.get(which.draftId);
      if (known?.entries === which.entries) return known.title;
      const made = at(records, which);
      const told = made.ok ? made.value.document['title'] : otherwise;
      const title = typeof told === 'string' ? told : '';
      titles.set(which.draftId, { title, entries: which.entries });
      return title;
    },
    keep: (draftId: string, draft: Draft, entries: number): void => live.set(draftId, { draft, entries }),
    drop: (draftId: string): void => live.delete(draftId),
    clear(): void {
      live.clear();
      titles.clear();
    },
  };
}

/**
 * Entries were tried when they were recorded, so one that is refused now was recorded by a program that made it otherwise.
 * The other drafts must not go down with this one.
 */
function unsteady(at: number | null, message: string): Answer<never> {
  const which = at === null ? 'The draft’s beginning' : `Entry ${String(at + 1)} of the draft`;
  return trouble(
    'EVENT_REFUSED',
    '/draftId',
    `${which} cannot be made again. ${message}`,
    'It is kept as it is. Begin another draft from the tree’s current revision.',
  );
}
