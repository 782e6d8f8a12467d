import type { DraftInFull, TreeRevision } from '../../../main/contract/index.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { liveTree, openDraft, replayDraft, type Draft } from '../../../trees/edit/index.ts';
import type { Asked, Session, Trouble } from '../../shell/index.ts';

/** What a desk is opened on: a draft to edit, or a published revision to read. */
export type Opened =
  | { readonly kind: 'draft'; readonly full: DraftInFull; readonly draft: Draft }
  | { readonly kind: 'revision'; readonly revision: TreeRevision; readonly draft: Draft };

/** Reads a draft and makes its edits again. */
export async function openedDraft(session: Session, draftId: string): Promise<Asked<Opened>> {
  const full = await session.ask((client, signal) => client.drafts.get({ draftId }, { signal }));
  if (!full.ok) return full;
  const replayed = replayDraft(full.value.baseText, full.value.entries);
  if (!replayed.ok) return unreadable(`draft ${draftId}`, replayed.message);
  return readable({ kind: 'draft', full: full.value, draft: replayed.draft }, `draft ${draftId}`);
}

/** Reads a published revision, to be looked at. */
export async function openedRevision(session: Session, revisionId: string): Promise<Asked<Opened>> {
  const revision = await session.ask((client, signal) => client.trees.revision({ revisionId }, { signal }));
  if (!revision.ok) return revision;
  const opened = openDraft(revision.value.text);
  if (!opened.ok) return unreadable(`tree revision ${revisionId}`, opened.message);
  const { draft } = opened;
  return readable({ kind: 'revision', revision: revision.value, draft }, `tree revision ${revisionId}`);
}

/** The tree that a text is; null where there is none, or it is no document. */
export function treeIn(text: string | null): Tree | null {
  const opened = text === null ? null : openDraft(text);
  return opened?.ok === true ? liveTree(opened.draft.document).tree : null;
}

/** A document that has not the tree’s shape, but for blank texts, cannot be shown as one. */
function readable(opened: Opened, where: string): Asked<Opened> {
  const misshapen = liveTree(opened.draft.document).blanks.find(({ rule }) => rule !== 'empty-text');
  return misshapen === undefined ? { ok: true, value: opened } : unreadable(where, misshapen.message);
}

function unreadable(where: string, message: string): { ok: false; trouble: Trouble } {
  return {
    ok: false,
    trouble: {
      code: 'DRAFT_UNREADABLE',
      message: `This cannot be read as a tree: ${message}`,
      where,
      help: 'It is kept as it is. Begin another draft from the tree’s last revision.',
    },
  };
}
