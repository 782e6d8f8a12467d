import { countOf, readAndCheck, type Tree } from '../../../trees/document/index.ts';
import type { NewPicture, PictureMark, Records } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';

/** The tree that some bytes are, if they can be published as a revision of `treeId`; else the first problem, in words. */
export function checked(bytes: Uint8Array, treeId: string): Answer<Tree> {
  const { tree, errors } = readAndCheck(bytes);
  const [first] = errors;
  if (tree === null) {
    const more = countOf(errors) - 1;
    const rest =
      more <= 0 ? '' : more === 1 ? ' There is 1 more error.' : ` There are ${String(more)} more errors.`;
    const message = `${first?.message ?? 'The tree cannot be read.'}${rest} Nothing was published.`;
    return trouble(
      'CHECK_FAILED',
      first?.at ?? '',
      message,
      first?.help ?? 'Mend the document, then publish.',
    );
  }
  if (tree.id === treeId) return answer(tree);
  const message = `The tree’s id is “${treeId}” and cannot become “${tree.id}”: history hangs on it. Nothing was published.`;
  return trouble('CHECK_FAILED', '/id', message, 'Undo the change of the id.');
}

/** The pictures that a tree's tests show, out of those there are; refused where one is not there. */
export function picturesFor(
  records: Records,
  tree: Tree,
  marks: readonly PictureMark[],
): Answer<readonly NewPicture[]> {
  const pictures = new Map<string, NewPicture>();
  for (const [id, { picture }] of Object.entries(tree.tests)) {
    if (picture === undefined || pictures.has(picture.file)) continue;
    const { file } = picture;
    const mark = marks.find((known) => known.file === file);
    const kept = mark === undefined ? null : records.pictures.named(file, mark.checksum);
    if (kept === null) {
      const message = `The picture ${file} is not there. Nothing was published.`;
      const help = 'Add the picture, choose another one, or take it off the test.';
      return trouble('CHECK_FAILED', `/tests/${id}/picture/file`, message, help);
    }
    pictures.set(file, { file, bytes: Buffer.from(kept.base64, 'base64') });
  }
  return answer([...pictures.values()]);
}

/** The tree has another current revision than the one that the draft stands on, or that the app has shown. */
export function staleRevision(): Answer<never> {
  return trouble(
    'STALE_REVISION',
    '/onto',
    'The tree has a newer published revision. Nothing was published.',
    'Look at what has changed in it and take it into yours, then publish.',
  );
}
