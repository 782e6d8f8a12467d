import { readTree, type Tree } from '../../trees/document/index.ts';
import type { TreeRevision, TreeSummary } from '../contract/index.ts';
import { instant, later } from './clock.ts';
import type { Room } from './database.ts';
import { checksumOf, type NewPicture, type Pictures } from './pictures.ts';
import { recent } from './recent.ts';
import type { TreeHeads } from './tree-heads.ts';

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
  readonly treeId: string;
  readonly bytes: Buffer;
  readonly checksum: string;
  readonly addedAt: string;
}

export interface RevisionMark {
  readonly id: string;
  readonly checksum: string;
  readonly source: RevisionSource;
  readonly addedAt: string;
}

export type TreeRevisions = ReturnType<typeof openTreeRevisions>;

/** Revisions of trees. Bytes are given back exactly as they came; what they were read as is kept for the next caller. */
export function openTreeRevisions({ db, ids, clock }: Room, heads: TreeHeads, pictures: Pictures) {
  const byId = db.prepare<[string], RevisionRow>(
    'SELECT id, tree_id AS treeId, bytes, checksum, added_at AS addedAt FROM tree_revision WHERE id = ?',
  );
  const marksOf = db.prepare<[string], RevisionMark>(
    `SELECT id, checksum, source, added_at AS addedAt FROM tree_revision WHERE tree_id = ?
     ORDER BY added_at DESC, id DESC`,
  );
  const insert = db.prepare<[string, string, Uint8Array, string, string, string, string]>(
    'INSERT INTO tree_revision (id, tree_id, bytes, checksum, source, note, added_at) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const tree = openReader((revisionId) => byId.get(revisionId)?.bytes);

  return {
    list: heads.list,
    find(revisionId: string): TreeRevision | null {
      const row = byId.get(revisionId);
      if (row === undefined) return null;
      const { id, treeId, bytes, checksum, addedAt } = row;
      return { revisionId: id, treeId, text: bytes.toString('utf8'), checksum, addedAt };
    },
    /** Ids, checksums and sources of a tree's revisions, newest first. */
    marks: (treeId: string): readonly RevisionMark[] => marksOf.all(treeId),
    /** The revision as the rooms get it; null where there is none of that id. */
    tree,
    /** The tree's current revision; null where the shop has no such tree. */
    current(treeId: string): Tree | null {
      const id = heads.revisionOf(treeId);
      return id === null ? null : tree(id);
    },
    /** Adds a revision and makes it current. The caller holds the transaction, and sorts the counts again. */
    add({ bytes, tree: added, source, note, pictures: shown }: NewRevision): TreeSummary {
      const at = later(clock(), marksOf.get(added.id)?.addedAt);
      const id = ids(at);
      insert.run(id, added.id, bytes, checksumOf(bytes), source, note, instant(at));
      pictures.add(id, shown);
      return heads.move(added, id, instant(at));
    },
  };
}

function openReader(
  bytesOf: (revisionId: string) => Buffer | undefined,
): (revisionId: string) => Tree | null {
  const read = recent<string, Tree>(32);
  return (revisionId) => {
    const known = read.get(revisionId);
    if (known !== undefined) return known;
    const bytes = bytesOf(revisionId);
    if (bytes === undefined) return null;
    const { tree } = readTree(bytes);
    if (tree === null) throw new Error(`revision-unreadable: ${revisionId} was checked when it was added`);
    read.set(revisionId, tree);
    return tree;
  };
}
