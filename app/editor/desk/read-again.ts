import { makeAgain, replayDraft, type MadeAgain } from '../../../trees/edit/index.ts';
import type { Asked } from '../../shell/index.ts';
import type { Waiting } from './draft-keeper.svelte.ts';
import { EditorDesk } from './editor-desk.svelte.ts';
import { openedDraft } from './opened-draft.ts';

/**
 * What becomes of the edits that wait on a desk whose draft has gone on elsewhere: all are made again or the draft is not laid out
 * anew (`all`), those that cannot be are let go of (`what-goes`), or all are (`none`).
 */
export type Again = 'all' | 'what-goes' | 'none';

/** The draft on a desk of its own as it is recorded now, or which of the edits keep that from being done. */
export type ReadAgain =
  | { readonly kind: 'read'; readonly desk: EditorDesk }
  | { readonly kind: 'left'; readonly made: number; readonly left: readonly string[] };

/** Reads the draft of a desk again and makes there what waits on that desk; the desk itself stays as it is. */
export async function readAgain(held: EditorDesk, draftId: string, how: Again): Promise<Asked<ReadAgain>> {
  const opened = await openedDraft(held.session, draftId);
  if (!opened.ok) return opened;
  const desk = new EditorDesk(held.session, opened.value);
  if (how !== 'none') {
    // Asked only now: what was done while the draft was being read is among it.
    const { waiting, again } = whatWaits(held, desk);
    const { made, left, entries } = again;
    if (how === 'all' && left.length > 0) return { ok: true, value: { kind: 'left', made, left } };
    for (const { entry, from } of entries) desk.makeAgain(entry, waiting[from]?.technicianId);
    desk.notice = noticeOf(made, left);
  }
  lookAlike(desk, held);
  return { ok: true, value: { kind: 'read', desk } };
}

function whatWaits(
  held: EditorDesk,
  { opened }: EditorDesk,
): { waiting: readonly Waiting[]; again: MadeAgain } {
  const nothing = { waiting: [], again: { entries: [], made: 0, left: [] } };
  if (opened.kind !== 'draft' || held.keeper === null) return nothing;
  const { baseText, entries } = opened.full;
  const { from, waiting } = held.keeper.waitingAfter(entries);
  const then = replayDraft(baseText, entries.slice(0, from));
  if (!then.ok) return nothing;
  const made = waiting.map(({ entry }) => entry);
  return { waiting, again: makeAgain(then.draft, made, opened.draft) };
}

/** One goes on where one was, as far as that is still there. */
function lookAlike(desk: EditorDesk, { selected, symptom, view }: EditorDesk): void {
  if (symptom !== null && Object.hasOwn(desk.tree.symptoms, symptom)) desk.symptom = symptom;
  if (selected !== '' && desk.has(selected)) desk.select(selected);
  desk.view = view;
}

function noticeOf(made: number, left: readonly string[]): string {
  const read = 'The draft has been read again.';
  const on =
    made === 0
      ? ''
      : ` ${made === 1 ? 'The edit' : `The ${String(made)} edits`} of this window ${made === 1 ? 'is' : 'are'} made again on top.`;
  const off =
    left.length === 0 ? '' : ` Let go of, as the other window changed the same: ${left.join('; ')}.`;
  return `${read}${on}${off}`;
}
