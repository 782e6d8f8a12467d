import { valueAt } from '../../../../trees/document/index.ts';
import type { DraftDocument } from '../../../../trees/edit/index.ts';
import type { Asked } from '../../../shell/index.ts';
import type { EditorDesk } from '../../desk/editor-desk.svelte.ts';
import { fileBase64 } from '../../exchange/index.ts';

/** Takes a picture file into the draft; gives the name that it has there. */
export async function takePicture(desk: EditorDesk, file: File): Promise<Asked<string>> {
  const { opened, session } = desk;
  if (opened.kind !== 'draft') throw new Error('picture-for-revision: only a draft takes pictures in');
  const { draftId } = opened.full.draft;
  const read = await fileBase64(file);
  if (!read.ok) return read;
  const taken = await session.ask((client, signal) =>
    client.drafts.addPicture({ draftId, file: file.name, base64: read.value }, { signal }),
  );
  return taken.ok ? { ok: true, value: taken.value.file } : taken;
}

/** The picture files that a draft’s tests show, and those that were taken in before it was opened. */
export function picturesOf(document: DraftDocument, taken: readonly string[]): readonly string[] {
  const shown = Object.keys(document['tests'] ?? {}).flatMap((test) => {
    const file = valueAt(document, ['tests', test, 'picture', 'file']);
    return typeof file === 'string' ? [file] : [];
  });
  return [...new Set([...shown, ...taken])].toSorted();
}
