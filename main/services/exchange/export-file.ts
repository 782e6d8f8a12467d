import { readTree, type Tree } from '../../../trees/document/index.ts';
import { liveTree, textOf } from '../../../trees/edit/index.ts';
import type { PictureMark, Records } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { draftInHand, picturesOfDraft, type LiveDrafts } from '../drafts/index.ts';
import { packTree } from './pack-tree.ts';

/** What is to be exported. */
export type ExportRequest = { readonly revisionId: string } | { readonly draftId: string };

/** A file on its way out. */
export interface ExportedFile {
  readonly name: string;
  readonly base64: string;
}

/** A revision, or a draft as it is now, with the pictures that its tests show, as one zip. */
export function exportFile(records: Records, live: LiveDrafts, request: ExportRequest): Answer<ExportedFile> {
  return 'draftId' in request
    ? ofDraft(records, live, request.draftId)
    : ofRevision(records, request.revisionId);
}

function ofRevision(records: Records, revisionId: string): Answer<ExportedFile> {
  const revision = records.trees.find(revisionId);
  const tree = revision === null ? null : readTree(revision.text).tree;
  if (revision === null || tree === null) {
    const help = 'Choose a revision from the list.';
    return trouble('NOT_FOUND', '/revisionId', 'There is no such revision of a tree.', help);
  }
  return answer(packed(records, tree, revision.text, records.pictures.marks(revisionId)));
}

function ofDraft(records: Records, live: LiveDrafts, draftId: string): Answer<ExportedFile> {
  const stored = draftInHand(records, draftId);
  if (!stored.ok) return stored;
  const made = live.at(records, stored.value);
  if (!made.ok) return made;
  const draft = made.value;
  const { tree } = liveTree(draft.document);
  const named = { ...tree, id: stored.value.treeId };
  return answer(packed(records, named, textOf(draft), picturesOfDraft(records, stored.value)));
}

function packed(records: Records, tree: Tree, text: string, marks: readonly PictureMark[]): ExportedFile {
  const shown = new Set(Object.values(tree.tests).flatMap(({ picture }) => picture?.file ?? []));
  const pictures = marks.flatMap(({ file, checksum }) => {
    const kept = shown.has(file) ? records.pictures.named(file, checksum) : null;
    return kept === null ? [] : [{ file, bytes: Buffer.from(kept.base64, 'base64') }];
  });
  const zip = packTree({ name: tree.id, text, pictures });
  return { name: `${tree.id}.zip`, base64: Buffer.from(zip).toString('base64') };
}
