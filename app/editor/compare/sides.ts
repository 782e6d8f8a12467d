import type { RevisionSummary } from '../../../main/contract/index.ts';
import type { DraftDocument } from '../../../trees/edit/index.ts';
import type { Asked, Session } from '../../shell/index.ts';
import { openedDraft, openedRevision } from '../desk/opened-draft.ts';
import { revisionInSentence, revisionWords } from '../list/revision-words.ts';

/** What is compared: a published revision, or a draft with the revision that it stands on. */
export type Compared =
  | { readonly kind: 'revisions'; readonly before: string; readonly after: string }
  | { readonly kind: 'draft'; readonly draftId: string };

/** One of the two documents: which it is, and what it says. */
export interface Side {
  /** The revision's id; null for a draft. */
  readonly revisionId: string | null;
  readonly words: string;
  /** The same within a sentence. */
  readonly said: string;
  readonly document: DraftDocument;
}

/** The two documents, and the revisions that can be chosen instead. */
export interface Sides {
  readonly treeId: string;
  readonly title: string;
  readonly before: Side;
  readonly after: Side;
  readonly revisions: readonly RevisionSummary[];
  readonly draftId: string | null;
}

/** Reads both. A draft of a tree that is not published yet has nothing to be compared with. */
export async function sidesOf(session: Session, compared: Compared, now: Date): Promise<Asked<Sides>> {
  return compared.kind === 'draft'
    ? draftSides(session, compared.draftId, now)
    : revisionSides(session, compared, now);
}

async function draftSides(session: Session, draftId: string, now: Date): Promise<Asked<Sides>> {
  const opened = await openedDraft(session, draftId);
  if (!opened.ok) return opened;
  if (opened.value.kind !== 'draft') throw new Error('draft-expected: a draft was opened as something else');
  const { full, draft } = opened.value;
  const { base, treeId, title, technician } = full.draft;
  if (base === null) return NOT_PUBLISHED;
  const before = await revisionSide(session, base, now, treeId);
  if (!before.ok) return before;
  const { revisions, side } = before.value;
  const words = `${technician}’s draft`;
  const after = { revisionId: null, words, said: words, document: draft.document };
  return { ok: true, value: { treeId, title, before: side, after, revisions, draftId } };
}

async function revisionSides(
  session: Session,
  { before, after }: Extract<Compared, { kind: 'revisions' }>,
  now: Date,
): Promise<Asked<Sides>> {
  const latter = await revisionSide(session, after, now);
  if (!latter.ok) return latter;
  const { revisions, side, treeId } = latter.value;
  const former = await revisionSide(session, before, now, treeId);
  if (!former.ok) return former;
  const title = typeof side.document.title === 'string' ? side.document.title : treeId;
  const value = { treeId, title, before: former.value.side, after: side, revisions, draftId: null };
  return { ok: true, value };
}

async function revisionSide(session: Session, revisionId: string, now: Date, known?: string) {
  const opened = await openedRevision(session, revisionId);
  if (!opened.ok) return opened;
  const { draft } = opened.value;
  const treeId = known ?? (typeof draft.document.id === 'string' ? draft.document.id : '');
  const listed = await session.ask((client, signal) => client.revisions.list({ treeId }, { signal }));
  if (!listed.ok) return listed;
  const summary = listed.value.find((one) => one.revisionId === revisionId);
  const words = summary === undefined ? 'A revision of another tree' : revisionWords(summary, now);
  const said = summary === undefined ? 'a revision of another tree' : revisionInSentence(summary, now);
  const side: Side = { revisionId, words, said, document: draft.document };
  return { ok: true as const, value: { side, treeId, revisions: listed.value } };
}

const NOT_PUBLISHED = {
  ok: false,
  trouble: {
    code: 'NOT_PUBLISHED',
    message: 'This tree has not been published yet, so there is nothing to compare the draft with.',
    where: 'the draft',
    help: 'Publish it first; later drafts are then compared with that.',
  },
} as const;
