import { createHash } from 'node:crypto';
import type { TreePicture } from '../contract/index.ts';
import type { Room } from './database.ts';

/** A picture of a revision, under the file name by which the tree's tests call it. */
export interface NewPicture {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** A picture's file name and the checksum it is kept by. */
export interface PictureMark {
  readonly file: string;
  readonly checksum: string;
}

type Media = TreePicture['media'];

interface Kept {
  readonly media: Media;
  readonly bytes: Buffer;
}

export type Pictures = ReturnType<typeof openPictures>;

/** Pictures are kept once, by checksum, however many revisions show them. */
export function openPictures({ db }: Pick<Room, 'db'>) {
  const insert = db.prepare<[string, Media, Uint8Array]>(
    'INSERT INTO picture (checksum, media, bytes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING',
  );
  const attach = db.prepare<[string, string, string]>(
    'INSERT INTO revision_picture (revision_id, file, picture_checksum) VALUES (?, ?, ?)',
  );
  const ofRevision = db.prepare<[string, string], Kept>(
    `SELECT media, bytes FROM revision_picture JOIN picture ON checksum = picture_checksum
     WHERE revision_id = ? AND file = ?`,
  );
  const marksOf = db.prepare<[string], PictureMark>(
    'SELECT file, picture_checksum AS checksum FROM revision_picture WHERE revision_id = ? ORDER BY file',
  );
  const attachToDraft = db.prepare<[string, string, string, string]>(
    'INSERT INTO draft_picture (draft_id, file, picture_checksum, at) VALUES (?, ?, ?, ?)',
  );
  const marksOfDraft = db.prepare<[string], PictureMark>(
    'SELECT file, picture_checksum AS checksum FROM draft_picture WHERE draft_id = ? ORDER BY file',
  );
  const namesOfTree = db
    .prepare<{ treeId: string }, string>(
      `SELECT file FROM revision_picture JOIN tree_revision ON id = revision_id WHERE tree_id = :treeId
       UNION SELECT file FROM draft_picture JOIN draft ON id = draft_id WHERE tree_id = :treeId`,
    )
    .pluck();
  const kept = db.prepare<[string], Kept>('SELECT media, bytes FROM picture WHERE checksum = ?');
  const keep = ({ file, bytes }: NewPicture): string => {
    const checksum = checksumOf(bytes);
    insert.run(checksum, mediaOf(file), bytes);
    return checksum;
  };
  return {
    /** Adds a revision's pictures. The caller holds the transaction. */
    add(revisionId: string, pictures: readonly NewPicture[]): void {
      for (const picture of pictures) attach.run(revisionId, picture.file, keep(picture));
    },
    /** Adds a draft's picture under a file name that the draft does not use yet. The caller holds the transaction. */
    addToDraft(draftId: string, picture: NewPicture, at: string): void {
      attachToDraft.run(draftId, picture.file, keep(picture), at);
    },
    find(revisionId: string, file: string): TreePicture | null {
      const row = ofRevision.get(revisionId, file);
      return row === undefined ? null : shownAs(file, row);
    },
    /** File names and checksums of a revision's pictures, by file name. */
    marks: (revisionId: string) => marksOf.all(revisionId),
    /** File names and checksums of the pictures that a draft has of its own, by file name. */
    marksOfDraft: (draftId: string): readonly PictureMark[] => marksOfDraft.all(draftId),
    /** The file names that pictures of a tree have had, in any revision or draft of it. */
    namesOfTree: (treeId: string): readonly string[] => namesOfTree.all({ treeId }),
    /** A picture by its checksum, under a file name. */
    named(file: string, checksum: string): TreePicture | null {
      const row = kept.get(checksum);
      return row === undefined ? null : shownAs(file, row);
    },
  };
}

function shownAs(file: string, { media, bytes }: Kept): TreePicture {
  return { file, media, base64: bytes.toString('base64') };
}

/** SHA-256 of some bytes, in lower-case hexadecimal. */
export function checksumOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function mediaOf(file: string): Media {
  if (file.endsWith('.svg')) return 'image/svg+xml';
  return file.endsWith('.png') ? 'image/png' : 'image/jpeg';
}
