import type { Tree } from '../../trees/document/index.ts';
import type { TreeSummary } from '../contract/index.ts';
import type { Database } from './database.ts';

interface Newest {
  readonly id: string;
  readonly addedAt: string;
}

export type TreeHeads = ReturnType<typeof openTreeHeads>;

/** Which revision of each tree is its current one, and what a list of trees shows of it. The callers hold the transaction. */
export function openTreeHeads(db: Database) {
  const summaries = db.prepare<[], string>('SELECT summary FROM tree_head ORDER BY tree_id').pluck();
  const revisionOf = db
    .prepare<[string], string>('SELECT revision_id FROM tree_head WHERE tree_id = ?')
    .pluck();
  const set = db.prepare<[string, string, string]>(
    `INSERT INTO tree_head (tree_id, revision_id, summary) VALUES (?, ?, ?)
     ON CONFLICT (tree_id) DO UPDATE SET revision_id = excluded.revision_id, summary = excluded.summary`,
  );
  const newestOfEach = db.prepare<[], Newest>(
    `SELECT id, added_at AS addedAt FROM tree_revision AS newest WHERE NOT EXISTS (
       SELECT 1 FROM tree_revision AS later WHERE later.tree_id = newest.tree_id
         AND (later.added_at, later.id) > (newest.added_at, newest.id))`,
  );
  const move = (tree: Tree, revisionId: string, addedAt: string): TreeSummary => {
    const summary = summaryOf(tree, revisionId, addedAt);
    set.run(tree.id, revisionId, JSON.stringify(summary));
    return summary;
  };
  return {
    list: (): readonly TreeSummary[] => summaries.all().map((summary) => JSON.parse(summary) as TreeSummary),
    /** The id of a tree's current revision; null where the shop has no such tree. */
    revisionOf: (treeId: string): string | null => revisionOf.get(treeId) ?? null,
    /** Makes a revision its tree's current one. */
    move,
    /** Sets the current revision of every tree from the revisions there are. */
    rebuild(treeAt: (revisionId: string) => Tree | null): void {
      db.exec('DELETE FROM tree_head');
      for (const { id, addedAt } of newestOfEach.all()) {
        const tree = treeAt(id);
        if (tree !== null) move(tree, id, addedAt);
      }
    },
  };
}

function summaryOf(tree: Tree, revisionId: string, addedAt: string): TreeSummary {
  return {
    treeId: tree.id,
    revisionId,
    title: tree.title,
    summary: tree.summary,
    family: tree.unit.family,
    boards: [...tree.unit.boards],
    symptoms: Object.entries(tree.symptoms).map(([id, { title }]) => ({ id, title })),
    addedAt,
  };
}
