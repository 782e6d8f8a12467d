import type { Tree } from '../../../trees/document/index.ts';
import type { Asked, Session } from '../../shell/index.ts';

/** Pictures by file name, as `data:` addresses, or why one is not there. */
export type SheetPictures = ReadonlyMap<string, Asked<string>>;

/** Reads all pictures that a tree's tests show, each once, so that a sheet is whole before it is printed. */
export async function readPictures(
  session: Session,
  kind: 'draft' | 'revision',
  id: string,
  tree: Tree,
): Promise<SheetPictures> {
  const files = new Set(Object.values(tree.tests).flatMap(({ picture }) => picture?.file ?? []));
  const read = await Promise.all(
    [...files].map(async (file) => [file, await one(session, kind, id, file)] as const),
  );
  return new Map(read);
}

async function one(
  session: Session,
  kind: 'draft' | 'revision',
  id: string,
  file: string,
): Promise<Asked<string>> {
  const picture = await session.ask((client, signal) =>
    kind === 'draft'
      ? client.drafts.picture({ draftId: id, file }, { signal })
      : client.trees.picture({ revisionId: id, file }, { signal }),
  );
  if (!picture.ok) return picture;
  return { ok: true, value: `data:${picture.value.media};base64,${picture.value.base64}` };
}
