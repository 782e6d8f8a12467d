import { documentOf, makeChanges } from './apply-changes.ts';
import type { Change } from './change.ts';
import { limitPassed, tooManyChanges } from './draft-limits.ts';
import { MOST_CHANGES, MOST_SHIFTED, type DraftEntry } from './entry.ts';
import { isRecord, type DraftDocument, type Json } from './json.ts';
import { extentOf, type Size } from './size.ts';
import { workOn, type Working } from './working.ts';

/** One step of undo or redo: the edits it holds, and the changes that take it back (on `undo`) or make it again (on `redo`). */
export interface EditStep {
  readonly what: string;
  readonly changes: readonly Change[];
  /** Entries that they shift; see {@link makeChanges}. */
  readonly shifted: number;
}

/** A draft as its entries have made it. */
export interface Draft {
  readonly baseText: string;
  /** The document that the base's text is read as; since a merge, the draft as that left it. */
  readonly base: DraftDocument;
  readonly document: DraftDocument;
  readonly size: Size;
  /** Edits that stand, the last one last, each with the changes that take it back. */
  readonly undo: Stack<EditStep>;
  /** Edits taken back, the one to be made again first on top. */
  readonly redo: Stack<EditStep>;
  /** The published revision that a merge has put the draft on; null while it stands where it began. */
  readonly rebasedOn: string | null;
}

/** A stack that shares its rest: a draft of many edits costs no more to edit than one of few. */
export type Stack<T> = { readonly top: T; readonly rest: Stack<T>; readonly size: number } | null;

export type Edited =
  { readonly ok: true; readonly draft: Draft; readonly changes: readonly Change[] } | Refused;

/** Why an entry cannot be made: it names what is not there or, with what to do about it (`help`), it is too large. */
export type Refused = { readonly ok: false; readonly message: string; readonly help?: string };

/** Opens a draft on its base, the text of a document. Not JSON, or no JSON object, is refused. */
export function openDraft(
  baseText: string,
): { readonly ok: true; readonly draft: Draft } | { readonly ok: false; readonly message: string } {
  let base: Json;
  try {
    base = JSON.parse(baseText.replace(/^\uFEFF/, '')) as Json;
  } catch {
    return { ok: false, message: 'The draft’s base is not JSON.' };
  }
  if (!isRecord(base)) return { ok: false, message: 'The draft’s base is no tree document.' };
  return {
    ok: true,
    draft: { baseText, base, document: base, size: sizeOf(base), undo: null, redo: null, rebasedOn: null },
  };
}

/** The draft after one more entry, and the changes that it has made to the document; refused where it cannot be made here. */
export function applyEntry(draft: Draft, entry: DraftEntry): Edited {
  const work = workOn(draft.document);
  const next = entryMade(draft, work, entry);
  return next.ok && entry.kind !== 'rebase' ? { ...next, draft: withDocument(next.draft, work) } : next;
}

/** The draft that a base and its entries make. However many they are, what they change in the base is copied once. */
export function replayDraft(
  baseText: string,
  entries: Iterable<DraftEntry>,
):
  | { readonly ok: true; readonly draft: Draft }
  | { readonly ok: false; readonly at: number | null; readonly message: string } {
  const opened = openDraft(baseText);
  if (!opened.ok) return { ...opened, at: null };
  let { draft } = opened;
  const work = workOn(draft.document);
  let at = 0;
  for (const entry of entries) {
    const next = entryMade(entry.kind === 'rebase' ? withDocument(draft, work) : draft, work, entry);
    if (!next.ok) return { ok: false, at, message: next.message };
    ({ draft } = next);
    at += 1;
  }
  return { ok: true, draft: withDocument(draft, work) };
}

/**
 * The draft's document as text: two spaces of indentation and a newline at the end. Where no edit stands, it is the base's
 * text as it came, to the byte.
 */
export function textOf({ base, baseText, document, undo }: Draft): string {
  return undo === null || document === base ? baseText : `${JSON.stringify(document, null, 2)}\n`;
}

/** The draft after one more entry, made in the document that is worked on; its own document stays as it was. */
function entryMade(draft: Draft, work: Working, entry: DraftEntry): Edited {
  switch (entry.kind) {
    case 'edit':
      return edited(draft, work, entry.what, entry.changes, entry.joins === true);
    case 'undo':
      return draft.undo === null ? refused('There is nothing to undo.') : undone(draft, work, draft.undo);
    case 'redo':
      return draft.redo === null ? refused('There is nothing to redo.') : redone(draft, work, draft.redo);
    case 'rebase':
      return { ok: true, draft: rebased(draft, entry.revisionId), changes: [] };
  }
}

/** With all edits taken back the document equals the base; as the same one it is known to be unchanged. */
function withDocument(draft: Draft, work: Working): Draft {
  return { ...draft, document: draft.undo === null ? draft.base : documentOf(work) };
}

/**
 * What was done before a merge cannot be taken back after it: that would take out again, without a word, what the revision
 * that the draft now stands on has.
 */
function rebased(draft: Draft, revisionId: string): Draft {
  const { base, baseText, document } = draft;
  const text = document === base ? baseText : textOf(draft);
  return { ...draft, baseText: text, base: document, undo: null, redo: null, rebasedOn: revisionId };
}

function edited(
  draft: Draft,
  work: Working,
  what: string,
  changes: readonly Change[],
  joins: boolean,
): Edited {
  if (changes.length > MOST_CHANGES) return { ok: false, ...tooManyChanges(changes.length) };
  const applied = makeChanges(work, changes, MOST_SHIFTED);
  if (!applied.ok) return applied;
  const passed = limitPassed(draft.size, applied);
  if (passed !== null) return { ok: false, ...passed };
  const { inverse, shifted } = applied;
  const step = joined(joins ? (draft.undo?.top ?? null) : null, { what, changes: inverse, shifted });
  const undo =
    step === null
      ? pushed(draft.undo, { what, changes: inverse, shifted })
      : pushed(draft.undo?.rest ?? null, step);
  const size = grown(draft.size, applied.grown);
  return { ok: true, draft: { ...draft, size, undo, redo: null }, changes };
}

/** Two steps of undo as one, where there are two and that one is not too large to be made at once. */
function joined(former: EditStep | null, { changes, shifted }: EditStep): EditStep | null {
  if (former === null) return null;
  const step = {
    what: former.what,
    changes: former.changes.length + changes.length,
    shifted: former.shifted + shifted,
  };
  if (step.changes > MOST_CHANGES || step.shifted > MOST_SHIFTED) return null;
  return { ...step, changes: [...changes, ...former.changes] };
}

function undone(draft: Draft, work: Working, { top, rest }: NonNullable<Stack<EditStep>>): Edited {
  const applied = makeChanges(work, top.changes, Infinity);
  if (!applied.ok) return refused(applied.message);
  const { inverse, shifted } = applied;
  const redo = pushed(draft.redo, { what: top.what, changes: inverse, shifted });
  const size = grown(draft.size, applied.grown);
  return { ok: true, draft: { ...draft, size, undo: rest, redo }, changes: top.changes };
}

function redone(draft: Draft, work: Working, { top, rest }: NonNullable<Stack<EditStep>>): Edited {
  const applied = makeChanges(work, top.changes, Infinity);
  if (!applied.ok) return refused(applied.message);
  const { inverse, shifted } = applied;
  const undo = pushed(draft.undo, { what: top.what, changes: inverse, shifted });
  const size = grown(draft.size, applied.grown);
  return { ok: true, draft: { ...draft, size, undo, redo: rest }, changes: top.changes };
}

function pushed<T>(stack: Stack<T>, top: T): Stack<T> {
  return { top, rest: stack, size: (stack?.size ?? 0) + 1 };
}

function sizeOf(document: DraftDocument): Size {
  const { bytes, values } = extentOf(document, []);
  return { bytes, values };
}

function grown(size: Size, by: Size): Size {
  return { bytes: size.bytes + by.bytes, values: size.values + by.values };
}

function refused(message: string): { ok: false; message: string } {
  return { ok: false, message };
}
