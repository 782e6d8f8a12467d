import { readTree, type Tree } from '../../trees/document/index.ts';
import type { TreeRevision, TreeSummary } from '../contract/index.ts';
import { instant } from './clock.ts';
import type { Room } from './database.ts';
import { checksumOf, type NewPicture, type Pictures } from './pictures.ts';
import { recent } from './recent.ts';

export type RevisionSource = 'library' | 'import' | 'published';

/** A revision to be added: the exact bytes and the tree they were read and checked as. */
export interface NewRevision {
  readonly bytes: Uint8Array;
  readonly tree: Tree;
  readonly source: RevisionSource;
  readonly note: string;
  readonly pictures: readonly NewPicture[];
}

interface RevisionRow {
  readonly id: string;
  readonly tree_id: string;
  readonly bytes: Buffer;
  readonly checksum: string;
  readonly added_at: string;
}

export interface RevisionMark {
  readonly id: string;
  readonly checksum: string;
  readonly source: RevisionSource;
}

export type TreeRevisions = ReturnType<typeof openTreeRevisions>;

/** Revisions of trees: the newest of a tree is its current one. Bytes are given back exactly as they came. */
export function openTreeRevisions({ db, ids, clock }: Room, pictures: Pictures) {
  const byId = db.prepare<[string], RevisionRow>(
    'SELECT id, tree_id, bytes, checksum, added_at FROM tree_revision WHERE id = ?',
  );
  const marksOf = db.prepare<[string], RevisionMark>(
    'SELECT id, checksum, source FROM tree_revision WHERE tree_id = ? ORDER BY added_at DESC, id DESC',
  );
  const insert = db.prepare<[string, string, Uint8Array, string, string, string, string]>(
    'INSERT INTO tree_revision (id, tree_id, bytes, checksum, source, note, added_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const heads = db.prepare<[], { readonly summary: string }>(
    'SELECT summary FROM tree_head ORDER BY tree_id',
  );
  const currentOf = db
    .prepare<[string], string>('SELECT revision_id FROM tree_head WHERE tree_id = ?')
    .pluck();
  const setHead = db.prepare<[string, string, string]>(
    `INSERT INTO tree_head (tree_id, revision_id, summary) VALUES (?, ?, ?)
     ON CONFLICT (tree_id) DO UPDATE SET revision_id = excluded.revision_id, summary = excluded.summary`,
  );
  const parsed = recent<string, Tree>(32);

  const tree = (revisionId: string): Tree | null => {
    const known = parsed.get(revisionId);
    if (known !== undefined) return known;
    const row = byId.get(revisionId);
    if (row === undefined) return null;
    const read = readTree(row.bytes).tree;
    if (read === null) throw new Error(`revision-unreadable: ${revisionId} was checked when it was added`);
    parsed.set(revisionId, read);
    return read;
  };

  return {
    /** The current revision of each tree, by tree id. */
    list: (): readonly TreeSummary[] => heads.all().map(({ summary }) => JSON.parse(summary) as TreeSummary),
    find(revisionId: string): TreeRevision | null {
      const row = byId.get(revisionId);
      if (row === undefined) return null;
      const { id, tree_id: treeId, bytes, checksum, added_at: addedAt } = row;
      return { revisionId: id, treeId, text: bytes.toString('utf8'), checksum, addedAt };
    },
    /** Ids, checksums and sources of a tree's revisions, newest first. */
    marks: (treeId: string): readonly RevisionMark[] => marksOf.all(treeId),
    /** The revision as the rooms get it; null where there is none of that id. Kept for the next caller. */
    tree,
    /** The tree's current revision; null where the shop has no such tree. */
    current(treeId: string): Tree | null {
      const id = currentOf.get(treeId);
      return id === undefined ? null : tree(id);
    },
    /** Adds a revision and makes it current. The caller holds the transaction, and sorts the counts again. */
    add({ bytes, tree: added, source, note, pictures: shown }: NewRevision): TreeSummary {
      const at = clock();
      const id = ids(at);
      const checksum = checksumOf(bytes);
      insert.run(id, added.id, bytes, checksum, source, note, instant(at));
      pictures.add(id, shown);
      const summary = summaryOf(added, id, instant(at));
      setHead.run(added.id, id, JSON.stringify(summary));
      return summary;
    },
    /** Sets the current revision of every tree from the revisions there are. The caller holds the transaction. */
    rebuildHeads(): void {
      db.exec('DELETE FROM tree_head');
      const newest = db.prepare<[], RevisionRow>(
        `SELECT id, tree_id, bytes, checksum, added_at FROM tree_revision AS newest WHERE NOT EXISTS (
           SELECT 1 FROM tree_revision AS later WHERE later.tree_id = newest.tree_id
             AND (later.added_at, later.id) > (newest.added_at, newest.id))`,
      );
      for (const { id, tree_id: treeId, added_at: addedAt } of newest.all()) {
        const current = tree(id);
        if (current !== null) setHead.run(treeId, id, JSON.stringify(summaryOf(current, id, addedAt)));
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
