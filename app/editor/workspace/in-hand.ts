import type { Asked, Session } from '../../shell/index.ts';

/** A tree as it is in hand: a draft to edit, or a published revision to read. */
export interface InHand {
  readonly kind: 'draft' | 'read';
  readonly id: string;
}

/** The last draft of a tree that who is at work has in hand, else its current revision. */
export async function inHand(session: Session, treeId: string): Promise<Asked<InHand>> {
  const technicianId = session.technician?.id;
  const drafts = await session.ask((client, signal) => client.drafts.list(undefined, { signal }));
  if (!drafts.ok) return drafts;
  const own = drafts.value.find((one) => one.treeId === treeId && one.technicianId === technicianId);
  if (own !== undefined) return { ok: true, value: { kind: 'draft', id: own.draftId } };
  const trees = await session.ask((client, signal) => client.trees.list(undefined, { signal }));
  if (!trees.ok) return trees;
  const tree = trees.value.find((one) => one.treeId === treeId);
  return tree === undefined
    ? { ok: false, trouble: { ...NO_SUCH_TREE, where: treeId } }
    : { ok: true, value: { kind: 'read', id: tree.revisionId } };
}

const NO_SUCH_TREE = {
  code: 'TREE_NOT_FOUND',
  message: 'The shop has no such tree.',
  help: 'Open Trees and choose one.',
};
