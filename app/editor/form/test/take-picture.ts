import { valueAt } from '../../../../trees/document/index.ts';
import type { DraftDocument } from '../../../../trees/edit/index.ts';
import type { Asked } from '../../../shell/index.ts';
import type { EditorDesk } from '../../desk/editor-desk.svelte.ts';

/** Takes a picture file into the draft; gives the name that it has there. */
export async function takePicture(desk: EditorDesk, file: File): Promise<Asked<string>> {
  const { opened, session } = desk;
  if (opened.kind !== 'draft') throw new Error('picture-for-revision: only a draft takes pictures in');
  const { draftId } = opened.full.draft;
  const base64 = base64Of(new Uint8Array(await file.arrayBuffer()));
  const taken = await session.ask((client, signal) =>
    client.drafts.addPicture({ draftId, file: file.name, base64 }, { signal }),
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

/** Bytes in base64. In parts, as a function takes only so many arguments. */
function base64Of(bytes: Uint8Array): string {
  const PART = 0x8000;
  let text = '';
  for (let start = 0; start < bytes.length; start += PART)
    text += String.fromCharCode(...bytes.subarray(start, start + PART));
  return btoa(text);
}
