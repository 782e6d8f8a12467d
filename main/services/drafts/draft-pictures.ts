import type { TreePicture } from '../../contract/index.ts';
import type { PictureMark, Records, StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';

/**
 * The pictures that a draft can show, by file name: its own; failing that, those of the revision it stands on; failing
 * that, those of the revision it began on, of which a merge may have kept tests.
 */
export function picturesOfDraft(records: Records, draft: StoredDraft): readonly PictureMark[] {
  const { draftId, begunOn, base } = draft;
  const known = new Map<string, PictureMark>();
  for (const revisionId of new Set([begunOn, base])) {
    if (revisionId !== null)
      for (const mark of records.pictures.marks(revisionId)) known.set(mark.file, mark);
  }
  for (const mark of records.pictures.marksOfDraft(draftId)) known.set(mark.file, mark);
  return [...known.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
}

/** One of the pictures that a draft can show. */
export function draftPicture(records: Records, draft: StoredDraft, file: string): Answer<TreePicture> {
  const mark = picturesOfDraft(records, draft).find((known) => known.file === file);
  const picture = mark === undefined ? null : records.pictures.named(file, mark.checksum);
  if (picture !== null) return answer(picture);
  return trouble(
    'NOT_FOUND',
    '/file',
    'The draft has no such picture.',
    'Choose another picture, or add it.',
  );
}
