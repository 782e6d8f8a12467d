import type { Change, Key, Path } from '../change.ts';
import { isList, isRecord, type DraftDocument, type Json } from '../json.ts';

/** What stands at a path of a document; undefined where there is no such place. */
export function at(document: DraftDocument, path: Path): Json | undefined {
  let value: Json | undefined = document;
  for (const key of path) {
    if (isList(value)) value = value[Number(key)];
    else if (isRecord(value) && Object.hasOwn(value, key)) value = value[key];
    else return undefined;
  }
  return value;
}

/** The changes that make a value stand at a path, records on the way made where they are not there yet; none where it does already. */
export function put(document: DraftDocument, path: Path, value: Json): readonly Change[] {
  if (at(document, path) === value) return [];
  let depth = path.length;
  let inner = value;
  while (depth > 1 && at(document, path.slice(0, depth - 1)) === undefined) {
    depth -= 1;
    inner = { [String(path[depth])]: inner };
  }
  return [{ do: 'set', path: path.slice(0, depth), value: inner }];
}

/** The changes that leave nothing at a path; none where nothing is there. */
export function drop(document: DraftDocument, path: Path): readonly Change[] {
  return at(document, path) === undefined ? [] : [{ do: 'remove', path }];
}

/** {@link put}, or {@link drop} where there is no value: for a field that may be left out. */
export function putOrDrop(document: DraftDocument, path: Path, value: Json | undefined): readonly Change[] {
  return value === undefined ? drop(document, path) : put(document, path, value);
}

/** The changes that add an entry to a list, last or at a place; the list is made where it is not there yet. */
export function append(document: DraftDocument, path: Path, value: Json, place?: number): readonly Change[] {
  const list = at(document, path);
  if (!isList(list)) return put(document, path, [value]);
  const to = Math.min(place ?? list.length, list.length);
  return [{ do: 'insert', path: [...path, to], at: to, value }];
}

/** The changes that add an entry to a record, last or at a place; the record is made where it is not there yet. */
export function enter(
  document: DraftDocument,
  path: Path,
  key: Key,
  value: Json,
  place?: number,
): readonly Change[] {
  const record = at(document, path);
  if (!isRecord(record)) return put(document, [...path, key], value);
  const size = Object.keys(record).length;
  return [{ do: 'insert', path: [...path, key], at: Math.min(place ?? size, size), value }];
}

/** The changes that keep of a list only what passes; none where all of it does. A list left empty stays. */
export function sift(
  document: DraftDocument,
  path: Path,
  passes: (entry: Json) => boolean,
): readonly Change[] {
  const list = at(document, path);
  if (!isList(list)) return [];
  const kept = list.filter(passes);
  return kept.length === list.length ? [] : [{ do: 'set', path, value: kept }];
}
