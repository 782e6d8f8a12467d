import { alignLists, sameText, stayingOf } from '../../document/index.ts';
import type { Change, Path } from '../change.ts';
import { isList, isRecord, type DraftDocument, type Json, type JsonObject } from '../json.ts';

/**
 * The changes that lead from one document to another, so exactly that both are then the same JSON text, the order of keys
 * included. Entries and fields that are the same in both are in none of them.
 */
export function changesTo(from: DraftDocument, to: DraftDocument): readonly Change[] {
  return recordChanges(from, to, []);
}

function changes(from: Json, to: Json, path: Path): readonly Change[] {
  if (sameText(from, to)) return [];
  if (isRecord(from) && isRecord(to)) return recordChanges(from, to, path);
  return (isList(from) && isList(to) && listChanges(from, to, path)) || [{ do: 'set', path, value: to }];
}

function recordChanges(from: JsonObject, to: JsonObject, path: Path): readonly Change[] {
  const stays = Object.keys(from).filter((key) => Object.hasOwn(to, key));
  const entries = Object.entries(to);
  return [
    ...Object.keys(from)
      .filter((key) => !Object.hasOwn(to, key))
      .map((key): Change => ({ do: 'remove', path: [...path, key] })),
    ...moves(
      stays,
      Object.keys(to).filter((key) => Object.hasOwn(from, key)),
      path,
    ),
    ...stays.flatMap((key) => changes(from[key] ?? null, to[key] ?? null, [...path, key])),
    ...entries.flatMap(([key, value], at): readonly Change[] =>
      Object.hasOwn(from, key) ? [] : [{ do: 'insert', path: [...path, key], at, value }],
    ),
  ];
}

/** Each that does not stay is put right behind the one that it is to follow, which by then stands in its place. */
function moves(held: readonly string[], wanted: readonly string[], path: Path): readonly Change[] {
  const staying = stayingOf(held, wanted);
  let now = held;
  return wanted.flatMap((key, place): readonly Change[] => {
    if (staying.has(key)) return [];
    const others = now.filter((other) => other !== key);
    const before = wanted[place - 1];
    const at = before === undefined ? 0 : others.indexOf(before) + 1;
    now = others.toSpliced(at, 0, key);
    return [{ do: 'move', path: [...path, key], at }];
  });
}

/** Null where the lists have no entry in common, so that the whole list is better set. */
function listChanges(from: readonly Json[], to: readonly Json[], path: Path): readonly Change[] | null {
  const pairs = alignLists(from, to);
  if (pairs.length === 0) return null;
  const stay = new Set(pairs.map(([one]) => one));
  const stood = new Set(pairs.map(([, other]) => other));
  return [
    ...from
      .flatMap((_, at): readonly Change[] => (stay.has(at) ? [] : [{ do: 'remove', path: [...path, at] }]))
      .toReversed(),
    ...to.flatMap((value, at): readonly Change[] =>
      stood.has(at) ? [] : [{ do: 'insert', path: [...path, at], at, value }],
    ),
    ...pairs.flatMap(([one, other]) => changes(from[one] ?? null, to[other] ?? null, [...path, other])),
  ];
}
