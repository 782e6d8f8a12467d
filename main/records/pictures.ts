import { createHash } from 'node:crypto';
import type { TreePicture } from '../contract/index.ts';
import type { Room } from './database.ts';

/** A picture of a revision, under the file name by which the tree's tests call it. */
export interface NewPicture {
  readonly file: string;
  readonly bytes: Uint8Array;
}

type Media = TreePicture['media'];

export type Pictures = ReturnType<typeof openPictures>;

/** Pictures are kept once, by checksum, however many revisions show them. */
export function openPictures({ db }: Pick<Room, 'db'>) {
  const insert = db.prepare<[string, Media, Uint8Array]>(
    'INSERT INTO picture (checksum, media, bytes) VALUES (?, ?, ?) ON CONFLICT DO NOTHING',
  );
  const attach = db.prepare<[string, string, string]>(
    'INSERT INTO revision_picture (revision_id, file, picture_checksum) VALUES (?, ?, ?)',
  );
  const ofRevision = db.prepare<[string, string], { readonly media: Media; readonly bytes: Buffer }>(
    `SELECT media, bytes FROM revision_picture JOIN picture ON checksum = picture_checksum
     WHERE revision_id = ? AND file = ?`,
  );
  const marksOf = db.prepare<[string], { readonly file: string; readonly checksum: string }>(
    'SELECT file, picture_checksum AS checksum FROM revision_picture WHERE revision_id = ? ORDER BY file',
  );
  return {
    /** Adds a revision's pictures. The caller holds the transaction. */
    add(revisionId: string, pictures: readonly NewPicture[]): void {
      for (const { file, bytes } of pictures) {
        const checksum = checksumOf(bytes);
        insert.run(checksum, mediaOf(file), bytes);
        attach.run(revisionId, file, checksum);
      }
    },
    find(revisionId: string, file: string): TreePicture | null {
      const row = ofRevision.get(revisionId, file);
      return row === undefined ? null : { file, media: row.media, base64: row.bytes.toString('base64') };
    },
    /** File names and checksums of a revision's pictures, by file name. */
    marks: (revisionId: string) => marksOf.all(revisionId),
  };
}

/** SHA-256 of some bytes, in lower-case hexadecimal. */
export function checksumOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function mediaOf(file: string): Media {
  if (file.endsWith('.svg')) return 'image/svg+xml';
  return file.endsWith('.png') ? 'image/png' : 'image/jpeg';
}
