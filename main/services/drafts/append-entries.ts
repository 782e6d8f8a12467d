import type { z } from 'zod';
import { applyEntry, type Draft, type DraftEntry } from '../../../trees/edit/index.ts';
import type { newEntriesSchema } from '../../contract/index.ts';
import type { Records, StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { workingTechnician } from '../append.ts';
import { draftInHand, staleDraft } from './draft-in-hand.ts';
import type { LiveDrafts } from './live-drafts.ts';

/**
 * Records entries of a draft: each is tried on the services' own replay, and then all are committed. Durable when it
 * answers, with the number of entries there are now; recorded all or none. Asked again for what was recorded last, because
 * the answer did not arrive, it answers as it did.
 */
export function appendEntries(
  records: Records,
  live: LiveDrafts,
  request: z.output<typeof newEntriesSchema>,
): Answer<{ readonly entries: number }> {
  const { draftId, seq, technicianId, entries } = request;
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const stored = draftInHand(records, draftId);
  if (!stored.ok) return stored;
  if (isKept(records, request, stored.value.entries)) return answer({ entries: stored.value.entries });
  if (stored.value.entries !== seq) return staleDraft();
  const before = live.at(records, stored.value);
  if (!before.ok) return before;
  const made = afterEntries(records, stored.value, before.value, entries);
  if (!made.ok) return made;
  if (!records.drafts.append({ draftId, seq, technicianId, entries })) {
    live.drop(draftId);
    return staleDraft();
  }
  live.keep(draftId, made.value, seq + entries.length);
  return answer({ entries: seq + entries.length });
}

/** Trying entries may take so long before the next is left to another request; one by itself is bounded by its limits. */
const LONGEST_MS = 100;

/** Whether the draft's last entries are just these, in this place: then the same document is there already. */
function isKept(
  records: Records,
  { draftId, seq, entries }: z.output<typeof newEntriesSchema>,
  kept: number,
): boolean {
  if (kept !== seq + entries.length) return false;
  const last = records.drafts.entries(draftId, seq);
  return last.every((entry, index) => JSON.stringify(entry) === JSON.stringify(entries[index]));
}

function afterEntries(
  records: Records,
  { treeId }: StoredDraft,
  from: Draft,
  entries: readonly DraftEntry[],
): Answer<Draft> {
  let draft = from;
  const begun = performance.now();
  for (const [index, entry] of entries.entries()) {
    const where = `/entries/${String(index)}`;
    if (entry.kind === 'rebase' && records.trees.tree(entry.revisionId)?.id !== treeId) {
      const message = 'There is no such revision of this tree.';
      return trouble('NOT_FOUND', `${where}/revisionId`, message, 'Choose one of the tree’s revisions.');
    }
    if (index > 0 && performance.now() - begun > LONGEST_MS) return tooMuch(where);
    const edited = applyEntry(draft, entry);
    if (!edited.ok) {
      const help = edited.help ?? 'Read the draft again, then make your change on what it says now.';
      return trouble('EVENT_REFUSED', where, `${edited.message} Nothing was recorded.`, help);
    }
    ({ draft } = edited);
  }
  return answer(draft);
}

function tooMuch(where: string): Answer<never> {
  return trouble(
    'TOO_MUCH_AT_ONCE',
    where,
    'These entries take too long to be made at once. Nothing was recorded.',
    'Send fewer of them at once.',
  );
}
