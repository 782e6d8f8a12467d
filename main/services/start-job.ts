import type { NewJob, JobSummary } from '../contract/index.ts';
import type { Records } from '../records/index.ts';
import { answer, trouble, type Answer } from './answer.ts';
import { workingTechnician } from './append.ts';

/** Opens a job on a revision of a tree, from one of its symptoms. `at` is the clock's now if absent. */
export function startJob(records: Records, job: NewJob, invented: boolean, at?: number): Answer<JobSummary> {
  const { revisionId, symptom, board, serial, reference, technicianId } = job;
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const tree = records.trees.tree(revisionId);
  if (tree === null) {
    return trouble(
      'NOT_FOUND',
      '/revisionId',
      'There is no such revision of a tree.',
      'Choose a tree from the list.',
    );
  }
  const said = Object.hasOwn(tree.symptoms, symptom) ? tree.symptoms[symptom] : undefined;
  if (said === undefined) {
    return trouble(
      'NOT_FOUND',
      '/symptom',
      'The tree has no such symptom.',
      'Choose one of the tree’s symptoms.',
    );
  }
  if (board !== '' && !tree.unit.boards.includes(board)) {
    return trouble(
      'NOT_FOUND',
      '/board',
      'The tree knows no such board.',
      'Choose one of the tree’s boards, or none.',
    );
  }
  const { family } = tree.unit;
  const opened = {
    revisionId,
    treeId: tree.id,
    family,
    symptom,
    symptomTitle: said.title,
    board,
    serial,
    reference,
  };
  return answer(records.jobs.start({ ...opened, technicianId, invented }, at));
}
