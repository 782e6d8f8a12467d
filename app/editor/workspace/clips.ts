import { applyChanges, copyOf, duplicate, keysAt, pasteOf, type Change } from '../../../trees/edit/index.ts';
import { pathOf, pointerOf } from '../../../trees/document/index.ts';
import { voice } from '../../shell/index.ts';
import type { EditorDesk } from '../desk/editor-desk.svelte.ts';
import { partWords } from '../desk/part-words.ts';
import { bringPicture, sourceOf } from './bring-picture.ts';
import { keptClip, type Kept } from './kept-clip.svelte.ts';

/** Copying, cutting, pasting and duplicating on a desk. What was copied is kept for this machine’s other windows and trees too. */
export function clipsOf(desk: EditorDesk) {
  const copy = (pointers: readonly string[]): void => {
    if (pointers.length === 0) return;
    keptClip.keep({ clip: copyOf(desk.document, pointers), from: sourceOf(desk) });
    voice.say(`Copied: ${namesOf(desk, pointers)}`);
  };
  return {
    copy,
    /** Whether anything was copied. */
    get isKept(): boolean {
      return keptClip.kept !== null;
    },
    cut(pointers: readonly string[]): void {
      if (pointers.length === 0 || desk.readonly) return;
      copy(pointers);
      desk.ask({ kind: 'remove', pointers });
    },
    paste(): void {
      const { kept } = keptClip;
      if (kept === null) voice.say('There is nothing to paste.');
      else void paste(desk, kept);
    },
    duplicate(pointers: readonly string[]): void {
      if (pointers.length > 0) duplicateAll(desk, pointers);
    },
  };
}

async function paste(desk: EditorDesk, { clip, from }: Kept): Promise<void> {
  const { changes, selected, notes, pictures } = pasteOf(desk.document, clip, { symptom: desk.symptom });
  if (changes.length === 0) return voice.say(notes.join(' ') || 'Nothing of it can be pasted here.');
  const before = new Set(keysAt(desk.document, ['tests']));
  if (!desk.edit('Paste', changes, { joins: 'paste' })) return;
  const pasted = keysAt(desk.document, ['tests']).filter((test) => !before.has(test));
  selectAll(desk, selected);
  for (const file of pictures) await bringPicture(desk, from, file, pasted);
  // Told last, as every edit takes away what the one before had to tell.
  desk.notice = notes.join(' ');
  desk.settle();
}

function duplicateAll(desk: EditorDesk, pointers: readonly string[]): void {
  const what = `Duplicate ${namesOf(desk, pointers)}`;
  let { document } = desk;
  const changes: Change[] = [];
  const selected: string[] = [];
  const make = (more: readonly Change[]): void => {
    const applied = applyChanges(document, more);
    if (!applied.ok) throw new Error(`edit-unsteady: ${applied.message}`);
    ({ document } = applied);
    changes.push(...more);
  };
  const others: string[] = [];
  for (const pointer of pointers) {
    const [root = '', id = '', ...rest] = pathOf(pointer);
    const made =
      (root === 'tests' || root === 'findings') && rest.length === 0 ? duplicate(document, root, id) : null;
    if (made === null) others.push(pointer);
    else {
      make(made.changes);
      selected.push(pointerOf([root, made.id]));
    }
  }
  if (others.length > 0) {
    const pasted = pasteOf(document, copyOf(document, others), { symptom: desk.symptom });
    make(pasted.changes);
    selected.push(...pasted.selected);
  }
  if (desk.edit(what, changes)) selectAll(desk, selected);
}

function selectAll(desk: EditorDesk, pointers: readonly string[]): void {
  const [first] = pointers;
  if (first === undefined) return;
  desk.select(first);
  desk.marked = pointers;
}

function namesOf(desk: EditorDesk, pointers: readonly string[]): string {
  const more = pointers.length - 1;
  const words = partWords(desk.tree, pointers[0] ?? '');
  return more > 0 ? `${words} and ${String(more)} more` : words;
}
