import type { Key, Path } from './change.ts';
import { isList, isRecord, type Holder, type Json } from './json.ts';
import {
  insertInRecord,
  moveInRecord,
  recordEntry,
  recordKeys,
  recordOf,
  recordPlace,
  recordSize,
  removeFromRecord,
  setInRecord,
  type WorkingRecord,
} from './working-record.ts';

/** No key of JSON, so that what is being worked on is told from a value. */
const WORKING = Symbol('working');

/** A record or list that is being changed in place: a copy of its own, made once. */
export type Working = { readonly [WORKING]: true } & (
  { readonly items: Part[] } | { readonly record: WorkingRecord }
);

/** An entry of it: a value as it was, or one that is being changed itself. */
export type Part = Json | Working;

export function workOn(holder: Holder): Working {
  return isList(holder)
    ? { [WORKING]: true, items: [...holder] }
    : { [WORKING]: true, record: { base: holder, over: new Map(), order: null } };
}

/** The record or list that a path's last key is one of; null where there is none. What leads there is worked on from now on. */
export function holderAt(root: Working, path: Path): Working | null {
  let holder = root;
  for (const key of path.slice(0, -1)) {
    const inner = entryOf(holder, key);
    if (isWorking(inner)) {
      holder = inner;
      continue;
    }
    if (!isList(inner) && !isRecord(inner)) return null;
    const working = workOn(inner);
    setEntry(holder, key, working);
    holder = working;
  }
  return holder;
}

/** The entry of a key; undefined where there is none. */
export function entryOf(holder: Working, key: Key): Part | undefined {
  if ('record' in holder) return recordEntry(holder.record, String(key));
  return typeof key === 'number' ? holder.items[key] : undefined;
}

/** What stands at a path, as the changes so far have made it; undefined where there is no such place. */
export function partAt(root: Working, path: Path): Part | undefined {
  let part: Part | undefined = root;
  for (const key of path) {
    if (isWorking(part)) part = entryOf(part, 'items' in part ? Number(key) : key);
    else if (isList(part)) part = part[Number(key)];
    else if (isRecord(part) && Object.hasOwn(part, key)) part = part[key];
    else return undefined;
  }
  return part;
}

/** The keys of a record, those of one that is being changed too; none of what is no record. */
export function keysIn(part: Part | undefined): readonly string[] {
  if (isWorking(part)) return 'record' in part ? recordKeys(part.record) : [];
  return isRecord(part) ? Object.keys(part) : [];
}

export function setEntry(holder: Working, key: Key, value: Part): void {
  if ('record' in holder) setInRecord(holder.record, String(key), value);
  else holder.items[Number(key)] = value;
}

/** Adds an entry that is not there yet. */
export function insertEntry(holder: Working, key: Key, at: number, value: Part): void {
  if ('record' in holder) insertInRecord(holder.record, String(key), at, value);
  else holder.items.splice(at, 0, value);
}

/** Takes an entry out that is there. */
export function removeEntry(holder: Working, key: Key): void {
  if ('record' in holder) removeFromRecord(holder.record, String(key));
  else holder.items.splice(Number(key), 1);
}

/** Moves an entry that is there. */
export function moveEntry(holder: Working, key: Key, at: number): void {
  if ('record' in holder) moveInRecord(holder.record, String(key), at);
  else holder.items.splice(at, 0, ...holder.items.splice(Number(key), 1));
}

/** The position of an entry that is there. */
export function placeOf(holder: Working, key: Key): number {
  return 'record' in holder ? recordPlace(holder.record, String(key)) : Number(key);
}

export function entriesIn(holder: Working): number {
  return 'record' in holder ? recordSize(holder.record) : holder.items.length;
}

/** The value that the changes have made of a part. */
export function closed(part: Part): Json {
  if (!isWorking(part)) return part;
  return 'record' in part ? recordOf(part.record, closed) : part.items.map(closed);
}

function isWorking(part: Part | undefined): part is Working {
  return typeof part === 'object' && part !== null && WORKING in part;
}

export function isWorkingList(holder: Working): boolean {
  return 'items' in holder;
}
