import { zipSync, type Zippable } from 'fflate';

/** What goes into a packed tree: its document's text, and its pictures under the names by which its tests call them. */
export interface PackedTree {
  /** The tree's id; the document is packed as NAME.tree.json. */
  readonly name: string;
  readonly text: string;
  readonly pictures: readonly { readonly file: string; readonly bytes: Uint8Array }[];
}

/** A tree and its pictures as the bytes of a zip. Equal content gives equal bytes: nothing of when or where is in them. */
export function packTree({ name, text, pictures }: PackedTree): Uint8Array {
  // The earliest day that a zip can state, by local time as a zip has it: the same bytes wherever it is packed.
  const mtime = new Date(1980, 0, 1, 12);
  const sorted = [...pictures].sort((a, b) => (a.file < b.file ? -1 : 1));
  const files: Zippable = { [`${name}.tree.json`]: [new TextEncoder().encode(text), { level: 9 }] };
  for (const { file, bytes } of sorted) files[file] = [bytes, { level: file.endsWith('.svg') ? 9 : 0 }];
  return zipSync(files, { mtime });
}
