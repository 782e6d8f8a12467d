import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import { isOrdered, type Place } from './place.ts';

/** Whether two values are written as the same JSON text: the order of keys counts. */
export function sameText(one: Json | undefined, other: Json | undefined): boolean {
  if (one === other) return true;
  if (isList(one))
    return (
      isList(other) && one.length === other.length && one.every((item, index) => sameText(item, other[index]))
    );
  if (!isRecord(one) || !isRecord(other)) return false;
  const keys = Object.keys(one);
  const others = Object.keys(other);
  return (
    keys.length === others.length &&
    keys.every((key, index) => others[index] === key && sameText(one[key], other[key]))
  );
}

/**
 * Whether two values at a place of a tree document say the same: the order of a record's keys counts only where it says
 * something.
 */
export function sameMeaning(one: Json | undefined, other: Json | undefined, place: Place): boolean {
  if (one === other) return true;
  if (isList(one)) {
    return (
      isList(other) &&
      one.length === other.length &&
      one.every((item, index) => sameMeaning(item, other[index], [...place, index]))
    );
  }
  return isRecord(one) && isRecord(other) && sameRecords(one, other, place);
}

function sameRecords(one: JsonObject, other: JsonObject, place: Place): boolean {
  const keys = Object.keys(one);
  const others = Object.keys(other);
  if (keys.length !== others.length) return false;
  const inOrder = isOrdered(place);
  return keys.every(
    (key, index) =>
      (inOrder ? others[index] === key : Object.hasOwn(other, key)) &&
      sameMeaning(one[key], other[key], [...place, key]),
  );
}
