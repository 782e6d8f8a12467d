import type { Change, Key, Path } from './change.ts';
import { isList, isRecord, type DraftDocument, type Holder, type Json } from './json.ts';

/** A document after changes, and the changes that lead back; or the first change that names a place that is not there. */
export type Applied =
  | { readonly ok: true; readonly document: DraftDocument; readonly inverse: readonly Change[] }
  | { readonly ok: false; readonly at: number; readonly message: string };

/**
 * The document after the changes, one after another. What they do not touch keeps its identity; records keep the order of
 * their keys. The inverse gives the former document back exactly, the order of keys included.
 */
export function applyChanges(document: DraftDocument, changes: readonly Change[]): Applied {
  let changed: DraftDocument = document;
  const inverse: Change[] = [];
  for (const [at, change] of changes.entries()) {
    const one = applied(changed, change.path, 0, change);
    if (one === null || !isRecord(one.value)) {
      return { ok: false, at, message: `Nothing can be changed at /${change.path.join('/')}.` };
    }
    changed = one.value;
    inverse.push(one.inverse);
  }
  return { ok: true, document: changed, inverse: inverse.reverse() };
}

interface One {
  readonly value: Json;
  readonly inverse: Change;
}

function applied(holder: Json | undefined, path: Path, depth: number, change: Change): One | null {
  const key = path[depth];
  if (key === undefined || (!isList(holder) && !isRecord(holder))) return null;
  if (depth === path.length - 1) return atEntry(holder, key, change);
  const inner = entryOf(holder, key);
  if (inner === undefined) return null;
  const one = applied(inner, path, depth + 1, change);
  return one === null ? null : { ...one, value: withEntry(holder, key, one.value) };
}

function atEntry(holder: Holder, key: Key, change: Change): One | null {
  const former = entryOf(holder, key);
  const { path } = change;
  switch (change.do) {
    case 'set': {
      if (former === undefined && isList(holder)) return null;
      const inverse: Change =
        former === undefined ? { do: 'remove', path } : { do: 'set', path, value: former };
      return { value: withEntry(holder, key, change.value), inverse };
    }
    case 'insert':
      return inserted(holder, key, change);
    case 'remove': {
      if (former === undefined) return null;
      const at = placeOf(holder, key);
      return { value: without(holder, key), inverse: { do: 'insert', path, at, value: former } };
    }
    case 'move':
      return former === undefined ? null : moved(holder, key, former, change);
  }
}

function inserted(holder: Holder, key: Key, change: Extract<Change, { do: 'insert' }>): One | null {
  const { path, at, value } = change;
  if (at > sizeOf(holder)) return null;
  if (isList(holder) ? key !== at : entryOf(holder, key) !== undefined) return null;
  return { value: withInserted(holder, key, at, value), inverse: { do: 'remove', path } };
}

function moved(
  holder: Holder,
  key: Key,
  entry: Json,
  { path, at }: Extract<Change, { do: 'move' }>,
): One | null {
  if (at >= sizeOf(holder)) return null;
  const from = placeOf(holder, key);
  const value = withInserted(without(holder, key), key, at, entry);
  return {
    value,
    inverse: { do: 'move', path: isList(holder) ? [...path.slice(0, -1), at] : path, at: from },
  };
}

function entryOf(holder: Holder, key: Key): Json | undefined {
  if (isList(holder)) return typeof key === 'number' ? holder[key] : undefined;
  const name = String(key);
  return Object.hasOwn(holder, name) ? holder[name] : undefined;
}

function placeOf(holder: Holder, key: Key): number {
  return isList(holder) ? Number(key) : Object.keys(holder).indexOf(String(key));
}

function sizeOf(holder: Holder): number {
  return isList(holder) ? holder.length : Object.keys(holder).length;
}

function withEntry(holder: Holder, key: Key, value: Json): Json {
  return isList(holder) ? holder.with(Number(key), value) : { ...holder, [String(key)]: value };
}

function withInserted(holder: Holder, key: Key, at: number, value: Json): Holder {
  if (isList(holder)) return holder.toSpliced(at, 0, value);
  return Object.fromEntries(Object.entries(holder).toSpliced(at, 0, [String(key), value]));
}

function without(holder: Holder, key: Key): Holder {
  if (isList(holder)) return holder.toSpliced(Number(key), 1);
  return Object.fromEntries(Object.entries(holder).filter(([name]) => name !== String(key)));
}
