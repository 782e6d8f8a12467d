import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import { pointerOf } from '../pointer.ts';
import { alignLists } from './align.ts';
import { holdsThings, isOneStatement, isOrdered, type Place } from './place.ts';
import { sameMeaning } from './same.ts';

/**
 * One field that differs. `at` points into the latter document, or into the former where the field is gone from the latter.
 * `before` or `after` is absent where the field is. For a record whose order alone differs both are lists of its ids.
 */
export interface FieldDifference {
  readonly at: string;
  readonly before?: Json;
  readonly after?: Json;
  /** For an entry of a list that stands elsewhere in it, unchanged: where it stood in the former document. */
  readonly movedFrom?: string;
}

const NONE: JsonObject = {};

/** The fields in which two values at a place of a tree document differ, without the fields that `without` names. */
export function fieldDifferences(
  before: Json | undefined,
  after: Json | undefined,
  place: Place,
  without: readonly string[] = [],
): readonly FieldDifference[] {
  if (before === after || sameMeaning(before, after, place)) return [];
  const isWhole =
    isOneStatement(place) ||
    (holdsThings(place.slice(0, -1)) && (before === undefined || after === undefined));
  if (isWhole) return [field(place, before, after)];
  if (isList(before ?? []) && isList(after ?? [])) return listed(before ?? [], after ?? [], place);
  if (isRecord(before ?? NONE) && isRecord(after ?? NONE))
    return recorded(before ?? NONE, after ?? NONE, place, without);
  return [field(place, before, after)];
}

function recorded(
  before: Json,
  after: Json,
  place: Place,
  without: readonly string[],
): readonly FieldDifference[] {
  if (!isRecord(before) || !isRecord(after)) return [];
  const keys = [...Object.keys(after), ...Object.keys(before).filter((key) => !Object.hasOwn(after, key))];
  const inner = keys
    .filter((key) => !without.includes(key))
    .flatMap((key) => fieldDifferences(entry(before, key), entry(after, key), [...place, key]));
  return isOrdered(place) ? [...inner, ...orderDifference(before, after, place)] : inner;
}

function orderDifference(before: JsonObject, after: JsonObject, place: Place): readonly FieldDifference[] {
  const held = Object.keys(before).filter((key) => Object.hasOwn(after, key));
  const now = Object.keys(after).filter((key) => Object.hasOwn(before, key));
  return held.every((key, index) => now[index] === key) ? [] : [field(place, held, now)];
}

function listed(before: Json, after: Json, place: Place): readonly FieldDifference[] {
  if (!isList(before) || !isList(after)) return [];
  const pairs = alignLists(before, after);
  const changed = pairs.flatMap(([one, other]) =>
    fieldDifferences(before[one], after[other], [...place, other]),
  );
  const gone = without(before, new Set(pairs.map(([one]) => one)));
  const come = without(after, new Set(pairs.map(([, other]) => other)));
  return [...changed, ...comeAndGone(gone, come, place)];
}

type Item = readonly [index: number, value: Json];

function without(list: readonly Json[], paired: ReadonlySet<number>): readonly Item[] {
  return list.flatMap((value, index): Item[] => (paired.has(index) ? [] : [[index, value]]));
}

function comeAndGone(gone: readonly Item[], come: readonly Item[], place: Place): readonly FieldDifference[] {
  const left = [...gone];
  const moved: FieldDifference[] = [];
  const added: FieldDifference[] = [];
  for (const [index, value] of come) {
    const at = [...place, index];
    const former = left.findIndex(([, one]) => sameMeaning(one, value, at));
    const [from] = former < 0 ? [] : left.splice(former, 1);
    if (from === undefined) added.push(field(at, undefined, value));
    else moved.push({ ...field(at, value, value), movedFrom: pointerOf([...place, from[0]]) });
  }
  return [...left.map(([index, value]) => field([...place, index], value, undefined)), ...added, ...moved];
}

function field(place: Place, before: Json | undefined, after: Json | undefined): FieldDifference {
  return {
    at: pointerOf(place),
    ...(before === undefined ? {} : { before }),
    ...(after === undefined ? {} : { after }),
  };
}

function entry(record: JsonObject, key: string): Json | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
