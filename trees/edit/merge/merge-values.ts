import { isOneStatement, isOrdered, sameMeaning, sameText, type Place } from '../../document/index.ts';
import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import { decided, isWhole, type Merging, type Versions } from './conflict.ts';
import { mergeLists } from './merge-lists.ts';

const NONE: JsonObject = {};

/**
 * What three versions of a place make: what one side alone has changed, as it has it; what both have, field by field; and
 * where both have changed the same field, the side that is chosen. Undefined is what is not there.
 */
export function mergeValues(
  merging: Merging,
  versions: Versions<Json | undefined>,
  place: Place,
): Json | undefined {
  const { base, theirs, yours } = versions;
  if (sameText(theirs, yours) || sameText(base, theirs)) return yours;
  if (sameText(base, yours)) return theirs;
  if (isRecord(theirs) && isRecord(yours) && !isOneStatement(place)) {
    const former = base === undefined && !isWhole(place) ? NONE : base;
    if (isRecord(former)) return mergeRecords(merging, { base: former, theirs, yours }, place);
  }
  if (isList(theirs) && isList(yours) && isList(base ?? [])) {
    const former = isList(base) ? base : [];
    return mergeLists(merging, { base: former, theirs, yours }, place, mergeValues);
  }
  if (sameMeaning(base, theirs, place)) return yours;
  if (sameMeaning(base, yours, place)) return theirs;
  return versions[decided(merging, versions, place)];
}

function mergeRecords(merging: Merging, versions: Versions<JsonObject>, place: Place): JsonObject {
  const keys = keysOf(merging, versions, place);
  return Object.fromEntries(
    keys.flatMap((key) => {
      const value = mergeValues(
        merging,
        {
          base: entry(versions.base, key),
          theirs: entry(versions.theirs, key),
          yours: entry(versions.yours, key),
        },
        [...place, key],
      );
      return value === undefined ? [] : [[key, value] as const];
    }),
  );
}

/** Yours in their order, with theirs behind the neighbours that they follow there; or, where only they moved any, the other way. */
function keysOf(
  merging: Merging,
  { base, theirs, yours }: Versions<JsonObject>,
  place: Place,
): readonly string[] {
  const shared = (record: JsonObject) =>
    Object.keys(record).filter((key) => [base, theirs, yours].every((one) => Object.hasOwn(one, key)));
  const orders = { base: shared(base), theirs: shared(theirs), yours: shared(yours) };
  const keys = { theirs: Object.keys(theirs), yours: Object.keys(yours) };
  if (sameText(orders.theirs, orders.base) || sameText(orders.theirs, orders.yours))
    return woven(keys.yours, keys.theirs);
  if (sameText(orders.yours, orders.base)) return woven(keys.theirs, keys.yours);
  const side = isOrdered(place) ? decided(merging, orders, place) : 'yours';
  return side === 'yours' ? woven(keys.yours, keys.theirs) : woven(keys.theirs, keys.yours);
}

function woven(lead: readonly string[], others: readonly string[]): readonly string[] {
  const keys = [...lead];
  others.forEach((key, place) => {
    if (lead.includes(key)) return;
    const before = others[place - 1];
    keys.splice(before === undefined ? 0 : keys.indexOf(before) + 1, 0, key);
  });
  return keys;
}

function entry(record: JsonObject, key: string): Json | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
