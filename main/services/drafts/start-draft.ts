import { idSchema } from '../../../trees/document/index.ts';
import { jsonValues, openDraft } from '../../../trees/edit/index.ts';
import type { DraftFrom } from '../../contract/index.ts';
import type { NewDraft, Records, StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { workingTechnician } from '../append.ts';

/** Begins a draft on a revision, or of a tree that the shop does not have. Durable when it answers. */
export function startDraft(records: Records, technicianId: string, from: DraftFrom): Answer<StoredDraft> {
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const begun = from.kind === 'new' ? newTree(records, from.text) : onRevision(records, from.revisionId);
  return begun.ok ? answer(records.drafts.start({ ...begun.value, technicianId })) : begun;
}

type Beginning = Omit<NewDraft, 'technicianId'>;

function onRevision(records: Records, revisionId: string): Answer<Beginning> {
  const tree = records.trees.tree(revisionId);
  if (tree !== null) return answer({ treeId: tree.id, baseRevision: revisionId, baseBytes: null });
  return trouble(
    'NOT_FOUND',
    '/from/revisionId',
    'There is no such revision of a tree.',
    'Choose a revision from the list.',
  );
}

function newTree(records: Records, text: string): Answer<Beginning> {
  const opened = openDraft(text);
  if (!opened.ok) return unusable(opened.message);
  if (jsonValues(opened.draft.document) === Infinity)
    return unusable('The document is nested too deep or is too large.');
  const id = idSchema.safeParse(opened.draft.document['id']);
  if (!id.success) return unusable('The document has no id that a tree can have.');
  const free = freeTreeId(records, id.data);
  if (!free.ok) return free;
  return answer({ treeId: id.data, baseRevision: null, baseBytes: new TextEncoder().encode(text) });
}

/** Whether a new tree may have this id: neither a tree of the shop has it nor the draft of another new one. */
export function freeTreeId(records: Records, treeId: string): Answer<null> {
  const published = records.trees.currentId(treeId) !== null;
  const drafted = records.drafts.inHand().some((draft) => draft.treeId === treeId);
  if (!published && !drafted) return answer(null);
  const what = published ? 'a tree' : 'a draft of a new tree';
  const help = published
    ? 'Give it another title, or edit that tree.'
    : 'Give it another title, or go on with that draft.';
  return trouble('ID_TAKEN', '/from/text', `The shop has ${what} of the id “${treeId}”.`, help);
}

function unusable(message: string): Answer<never> {
  return trouble('CHECK_FAILED', '/from/text', message, 'Begin with the text of a tree document.');
}
