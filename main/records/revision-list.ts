import type { RevisionSummary } from '../contract/index.ts';
import type { Room } from './database.ts';

type Row = Omit<RevisionSummary, 'current'> & { readonly current: 0 | 1 };

export type RevisionList = ReturnType<typeof openRevisionList>;

/** The revisions of a tree as a list shows them, and who published which. */
export function openRevisionList({ db }: Pick<Room, 'db'>) {
  const ofTree = db.prepare<[string], Row>(
    `SELECT revision.id AS revisionId, revision.tree_id AS treeId, source, note, name AS technician, revision.added_at AS addedAt,
       checksum, tree_head.revision_id IS revision.id AS current, coalesce(open.jobs, 0) AS openJobs
     FROM tree_revision AS revision
       LEFT JOIN revision_author ON revision_author.revision_id = revision.id
       LEFT JOIN technician ON technician.id = technician_id
       LEFT JOIN tree_head ON tree_head.tree_id = revision.tree_id
       LEFT JOIN (SELECT job.revision_id AS id, count(*) AS jobs FROM job_status JOIN job ON job.id = job_id
         WHERE outcome IS NULL GROUP BY job.revision_id) AS open ON open.id = revision.id
     WHERE revision.tree_id = ? ORDER BY revision.added_at DESC, revision.id DESC`,
  );
  const insertAuthor = db.prepare<[string, string]>(
    'INSERT INTO revision_author (revision_id, technician_id) VALUES (?, ?)',
  );
  return {
    /** Newest first; empty where the shop has no such tree. */
    of: (treeId: string): RevisionSummary[] =>
      ofTree.all(treeId).map(({ current, ...row }) => ({ ...row, current: current === 1 })),
    /** Says who published a revision. The caller holds the transaction. */
    setAuthor: (revisionId: string, technicianId: string): void =>
      void insertAuthor.run(revisionId, technicianId),
  };
}
