import type { Change, Path } from './change.ts';
import { isRecord, type DraftDocument, type Json } from './json.ts';
import { extentOf, type Extent, type Size } from './size.ts';
import {
  closed,
  entriesIn,
  entryOf,
  holderAt,
  insertEntry,
  isWorkingList,
  moveEntry,
  placeOf,
  removeEntry,
  setEntry,
  workOn,
  type Working,
} from './working.ts';

/** A document after changes, and the changes that lead back; or the first change that names a place that is not there. */
export type Applied =
  | {
      readonly ok: true;
      readonly document: DraftDocument;
      readonly inverse: readonly Change[];
      /** By how much the document has grown; negative where it has shrunk. */
      readonly grown: Size;
      /**
       * Entries of what had one put in, taken out or moved, summed up over the changes: so much there was to be shifted, and as
       * much there is when they are taken back.
       */
      readonly shifted: number;
      /** How far what was put in reaches. */
      readonly reach: Reach;
    }
  | { readonly ok: false; readonly at: number; readonly message: string; readonly help?: string };

/** The widest record or list, by where it is, that has been put in or added to, and the deepest level of what was put in. */
export interface Reach {
  readonly path: Path;
  readonly entries: number;
  readonly levels: number;
}

/**
 * The document after the changes, one after another. What they do not touch keeps its identity; records keep the order of
 * their keys. The inverse gives the former document back exactly, the order of keys included. Each record or list is copied
 * once, however many of the changes are in it. Refused where they shift more than so many entries.
 */
export function applyChanges(
  document: DraftDocument,
  changes: readonly Change[],
  mostShifted = Infinity,
): Applied {
  const root = workOn(document);
  const made = makeChanges(root, changes, mostShifted);
  return made.ok ? { ...made, document: documentOf(root) } : made;
}

/** What changes that are made on a document being worked on come to: {@link Applied} without the document. */
export type MadeChanges =
  Omit<Extract<Applied, { readonly ok: true }>, 'document'> | Extract<Applied, { readonly ok: false }>;

/** {@link applyChanges} in place, on a document that is worked on. Where they are refused it is left as they found it or between. */
export function makeChanges(root: Working, changes: readonly Change[], mostShifted: number): MadeChanges {
  const inverse: Change[] = [];
  const grown = { bytes: 0, values: 0 };
  let shifted = 0;
  let reach: Reach = { path: [], entries: 0, levels: 0 };
  for (const [at, change] of changes.entries()) {
    const holder = holderAt(root, change.path);
    const back = holder === null ? null : applied(holder, change);
    if (holder === null || back === null) {
      return { ok: false, at, message: `Nothing can be changed at /${change.path.join('/')}.` };
    }
    inverse.push(back);
    const [put, gone] = [extentOf(valueIn(change), change.path), extentOf(valueIn(back), change.path)];
    grown.bytes += put.bytes - gone.bytes;
    grown.values += put.values - gone.values;
    reach = farther(reach, put, holder, change, back);
    shifted += back.do === 'set' ? 0 : entriesIn(holder) + (back.do === 'insert' ? 1 : 0);
    if (shifted > mostShifted) return { ok: false, at, ...TOO_MUCH };
  }
  return { ok: true, inverse: inverse.reverse(), grown, shifted, reach };
}

/** The document that has been worked on. */
export function documentOf(root: Working): DraftDocument {
  const made = closed(root);
  if (!isRecord(made)) throw new Error('document-lost: changes leave a record a record');
  return made;
}

const TOO_MUCH = {
  message: 'This changes the order of too many entries at once.',
  help: 'Nothing was changed. Do it in parts.',
};

/** Makes a change in the record or list that its path's last key is one of, and gives the one that takes it back. */
function applied(holder: Working, change: Change): Change | null {
  const { path } = change;
  const key = path.at(-1) ?? '';
  const entry = entryOf(holder, key);
  switch (change.do) {
    case 'set':
      if (entry === undefined && isWorkingList(holder)) return null;
      setEntry(holder, key, change.value);
      return entry === undefined ? { do: 'remove', path } : { do: 'set', path, value: closed(entry) };
    case 'insert':
      if (change.at > entriesIn(holder)) return null;
      if (isWorkingList(holder) ? key !== change.at : entry !== undefined) return null;
      insertEntry(holder, key, change.at, change.value);
      return { do: 'remove', path };
    case 'remove': {
      if (entry === undefined) return null;
      const at = placeOf(holder, key);
      removeEntry(holder, key);
      return { do: 'insert', path, at, value: closed(entry) };
    }
    case 'move': {
      if (entry === undefined || change.at >= entriesIn(holder)) return null;
      const at = placeOf(holder, key);
      moveEntry(holder, key, change.at);
      return { do: 'move', path: isWorkingList(holder) ? [...path.slice(0, -1), change.at] : path, at };
    }
  }
}

function valueIn(change: Change): Json | undefined {
  return 'value' in change ? change.value : undefined;
}

function farther(reach: Reach, put: Extent, holder: Working, { path }: Change, back: Change): Reach {
  const around = back.do === 'remove' ? entriesIn(holder) : 0;
  const levels = Math.max(reach.levels, put.levels);
  if (Math.max(around, put.entries) <= reach.entries) return { ...reach, levels };
  return around >= put.entries
    ? { path: path.slice(0, -1), entries: around, levels }
    : { path, entries: put.entries, levels };
}
