import type { TreeSummary } from '../contract/index.ts';
import type { Records } from '../records/index.ts';
import { answer, trouble, type Answer } from './answer.ts';
import { workingTechnician } from './append.ts';
import { checked, picturesFor, staleRevision } from './drafts/index.ts';

/** A revision to be published anew, in the place of the one that is current now. */
export interface PublishAgainRequest {
  readonly revisionId: string;
  readonly technicianId: string;
  readonly note: string;
  readonly onto: string;
}

/** Publishes the same bytes and pictures as a new revision. Durable when it answers. */
export function publishAgain(records: Records, request: PublishAgainRequest): Answer<TreeSummary> {
  const { revisionId, technicianId, note, onto } = request;
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const former = records.trees.find(revisionId);
  if (former === null) {
    const message = 'There is no such revision of a tree.';
    return trouble('NOT_FOUND', '/revisionId', message, 'Choose a revision from the list.');
  }
  const bytes = new TextEncoder().encode(former.text);
  const tree = checked(bytes, former.treeId);
  if (!tree.ok) return tree;
  const pictures = picturesFor(records, tree.value, records.pictures.marks(revisionId));
  if (!pictures.ok) return pictures;
  const revision = { bytes, tree: tree.value, source: 'published' as const, note, pictures: pictures.value };
  const published = records.publish({ revision, technicianId, onto, draft: null });
  return published.ok ? answer(published.summary) : staleRevision();
}
