import type { DraftInFull, RevisionSummary } from '../../../main/contract/index.ts';
import { tellDifferences } from '../../../trees/edit/index.ts';
import { countWords } from '../compare/index.ts';
import { openedDraft, openedRevision } from '../desk/opened-draft.ts';
import { revisionWords } from '../list/revision-words.ts';
import type { Asked, Session } from '../../shell/index.ts';

/** How a tree that was taken in as a file stands to what the shop has of it. */
export interface Standing {
  readonly draftId: string;
  /** The current revision, which the draft stands on, in words. */
  readonly current: string;
  /** The revision whose document the file has to the byte, in words; null where it is none of the shop's. */
  readonly known: string | null;
  /** That revision is the current one. */
  readonly isCurrent: boolean;
  /** How many parts the file says otherwise than the current revision. */
  readonly differing: number;
  readonly counted: string;
}

/** Compares a draft that a file has become with its tree's revisions; null where the shop had no such tree. */
export async function asShopHasIt(
  session: Session,
  { draft, baseText }: DraftInFull,
  now = new Date(),
): Promise<Asked<Standing | null>> {
  const { draftId, treeId, current } = draft;
  if (current === null) return { ok: true, value: null };
  const listed = await session.ask((client, signal) => client.revisions.list({ treeId }, { signal }));
  if (!listed.ok) return listed;
  const [file, published] = [await openedDraft(session, draftId), await openedRevision(session, current)];
  if (!file.ok) return file;
  if (!published.ok) return published;
  const told = tellDifferences(published.value.draft.document, file.value.draft.document);
  const checksum = await sha256(baseText);
  // The current one first: a revision may have been published again.
  const same = [...listed.value].sort(byCurrent).find((one) => one.checksum === checksum);
  const head = listed.value.find((one) => one.current);
  return {
    ok: true,
    value: {
      draftId,
      current: head === undefined ? '' : revisionWords(head, now),
      known: same === undefined ? null : revisionWords(same, now),
      isCurrent: same?.current === true,
      differing: told.length,
      counted: countWords(told),
    },
  };
}

function byCurrent(one: RevisionSummary, other: RevisionSummary): number {
  return Number(other.current) - Number(one.current);
}

/** As the records have it of a revision's bytes: SHA-256 of the text, in hexadecimal digits. */
async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
