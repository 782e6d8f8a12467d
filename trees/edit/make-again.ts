import { at } from './acts/put.ts';
import type { Change, Path } from './change.ts';
import { applyEntry, type Draft, type Edited } from './draft.ts';
import type { DraftEntry } from './entry.ts';
import { isList, type DraftDocument } from './json.ts';
import { liveTree } from './live-tree.ts';

/** What is to be made again of some entries, and what is left. */
export interface MadeAgain {
  /** Entries to be made one after another; `from` is the place of the entry that each comes from. */
  readonly entries: readonly { readonly entry: DraftEntry; readonly from: number }[];
  /** Edits made again, as they are undone: what joins an edit counts with it. */
  readonly made: number;
  /** What each edit is called that cannot be made again. */
  readonly left: readonly string[];
}

/** One thing done that stands: its entries as edits of their own, each with the draft that it was made on. */
interface Done {
  readonly kind: 'edit' | 'undo' | 'rebase';
  readonly what: string;
  readonly parts: readonly Part[];
}

interface Part {
  readonly entry: DraftEntry;
  readonly from: number;
  readonly on: DraftDocument;
}

/**
 * How entries that were made on one draft (`on`) are made again on the same draft as it has gone on elsewhere (`onto`). An edit is
 * made again only where all that it changes still stands there as it stood when it was made; what was added, changed or taken out there by
 * somebody else is never overwritten. Edits that were taken back again are left out, and an edit from before that was taken back
 * here is so by an edit of its own, since the last one to be undone is another one there.
 */
export function makeAgain(on: Draft, entries: readonly DraftEntry[], onto: Draft): MadeAgain {
  let draft = onto;
  const made: { entry: DraftEntry; from: number }[] = [];
  const left: string[] = [];
  const done = whatStands(on, entries);
  for (const one of done) {
    const next = one.kind === 'rebase' && left.length > 0 ? null : madeOn(draft, one);
    if (next === null) left.push(one.what);
    else {
      draft = next;
      made.push(...one.parts.map(({ entry, from }) => ({ entry, from })));
    }
  }
  return { entries: made, made: done.length - left.length, left };
}

/** What stands of the entries in the end. Those that cannot be made where they were made are passed over: there are none. */
function whatStands(on: Draft, entries: readonly DraftEntry[]): readonly Done[] {
  let draft = on;
  let done: readonly Done[] = [];
  let undone: readonly Done[] = [];
  for (const [from, entry] of entries.entries()) {
    const edited = applyEntry(draft, entry);
    if (!edited.ok) continue;
    const part = (made: DraftEntry): Part => ({ entry: made, from, on: draft.document });
    const last = done.at(-1);
    const taken = undone.at(-1);
    if (entry.kind === 'undo' && last?.kind === 'edit') {
      [done, undone] = [done.slice(0, -1), [...undone, last]];
    } else if (entry.kind === 'redo' && taken !== undefined) {
      [done, undone] = [[...done, taken], undone.slice(0, -1)];
    } else if (entry.kind === 'edit' && entry.joins === true && last?.kind === 'edit') {
      done = [...done.slice(0, -1), { ...last, parts: [...last.parts, part(entry)] }];
    } else {
      done = [...done, doneBy(draft, entry, edited, part)];
      if (entry.kind === 'edit') undone = [];
    }
    ({ draft } = edited);
  }
  return done;
}

function doneBy(
  draft: Draft,
  entry: DraftEntry,
  { changes }: Edited & { ok: true },
  part: (made: DraftEntry) => Part,
): Done {
  switch (entry.kind) {
    case 'edit': {
      const { kind, what } = entry;
      return { kind, what, parts: [part({ kind, what, changes })] };
    }
    case 'rebase':
      return { kind: 'rebase', what: 'The merge with the published revision', parts: [part(entry)] };
    case 'undo':
    case 'redo': {
      const isUndo = entry.kind === 'undo';
      const former = (isUndo ? draft.undo : draft.redo)?.top.what ?? '';
      const what = `${isUndo ? 'Undo' : 'Redo'}: ${former}`;
      return { kind: 'undo', what, parts: [part({ kind: 'edit', what, changes })] };
    }
  }
}

/** The draft with all of it made; null where one part of it cannot be, or would leave something without its shape. */
function madeOn(draft: Draft, { parts }: Done): Draft | null {
  let made = draft;
  for (const { entry, on } of parts) {
    if (entry.kind === 'edit' && !standsAlike(on, made.document, entry.changes)) return null;
    const edited = applyEntry(made, entry);
    if (!edited.ok) return null;
    made = edited.draft;
  }
  const isShapely = liveTree(made.document).blanks.every(({ rule }) => rule === 'empty-text');
  return isShapely ? made : null;
}

/** Whether all that changes touch is in one document as it is in the other, before the first of them. */
function standsAlike(one: DraftDocument, other: DraftDocument, changes: readonly Change[]): boolean {
  return changes.every(({ path }) =>
    isAlike(...([one, other].map((document) => at(document, touched(document, path))) as [Stands, Stands])),
  );
}

type Stands = ReturnType<typeof at>;

/** What a change at a path is about: the entry there, or the outermost list on the way, whose entries are told by their places. */
function touched(document: DraftDocument, path: Path): Path {
  const size = path.findIndex((_, index) => isList(at(document, path.slice(0, index))));
  return size < 0 ? path : path.slice(0, size);
}

function isAlike(one: Stands, other: Stands): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
