import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import { isOrdered, type Place } from './place.ts';

/** Whether two values are written as the same JSON text: the order of keys counts. */
export function sameText(one: Json | undefined, other: Json | undefined): boolean {
  return same(one, other, () => true, []);
}

/**
 * Whether two values at a place of a tree document say the same: the order of a record's keys counts only where it says
 * something.
 */
export function sameMeaning(one: Json | undefined, other: Json | undefined, place: Place): boolean {
  return same(one, other, isOrdered, place);
}

function same(
  one: Json | undefined,
  other: Json | undefined,
  ordered: (place: Place) => boolean,
  place: Place,
): boolean {
  if (one === other) return true;
  if (isList(one)) {
    return (
      isList(other) &&
      one.length === other.length &&
      one.every((item, index) => same(item, other[index], ordered, [...place, index]))
    );
  }
  return isRecord(one) && isRecord(other) && sameRecords(one, other, ordered, place);
}

function sameRecords(
  one: JsonObject,
  other: JsonObject,
  ordered: (place: Place) => boolean,
  place: Place,
): boolean {
  const keys = Object.keys(one);
  const others = Object.keys(other);
  if (keys.length !== others.length) return false;
  const inOrder = ordered(place);
  return keys.every(
    (key, index) =>
      (inOrder ? others[index] === key : Object.hasOwn(other, key)) &&
      same(one[key], other[key], ordered, [...place, key]),
  );
}
