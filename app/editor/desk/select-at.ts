import { pathOf, pointerOf } from '../../../trees/document/index.ts';
import type { EditorDesk } from './editor-desk.svelte.ts';

/**
 * Selects the part that an address names by its pointer. Where the document has it no more, or never had, what it was in is
 * selected, and that is said.
 */
export function selectAt(desk: EditorDesk, pointer: string): void {
  const keys = pathOf(pointer);
  const pointers = keys.map((_, index) => pointerOf(keys.slice(0, keys.length - index)));
  // Parts are named in a record of their like: a pointer of an odd number of keys is at such a record.
  const found = pointers.find((one) => pathOf(one).length % 2 === 0 && desk.has(one)) ?? '';
  desk.select(found);
  if (found !== pointer)
    desk.notice = `This tree has no part at ${pointer}: what it would be in is selected instead.`;
}
