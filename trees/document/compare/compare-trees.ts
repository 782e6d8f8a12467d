import { isList, isRecord, type Json, type JsonObject } from '../json.ts';
import { own } from '../own.ts';
import { pointerOf } from '../pointer.ts';
import { alignLists } from './align.ts';
import { fieldDifferences, type FieldDifference } from './fields.ts';
import type { Place } from './place.ts';
import { sameMeaning } from './same.ts';
import { stayingOf } from './sequence.ts';
import { titleOf } from './title.ts';

/**
 * How one part of a tree (the tree itself, an axis, an interlock, a test, a finding, a symptom, a step) differs between two
 * documents. `part` points into the latter document, or into the former where the part is gone. What lies in a part that has
 * come or gone as a whole, such as the steps of a symptom, is not told again.
 */
export interface Difference {
  readonly part: string;
  readonly kind: 'added' | 'removed' | 'changed' | 'moved';
  readonly title: string;
  /** Whether it stands elsewhere in the order of its kind; a part that has changed may have been moved too. */
  readonly moved: boolean;
  /** The fields that differ; of a part that has come or gone, the one field that is the part itself. */
  readonly fields: readonly FieldDifference[];
}

const HOLDERS = ['bench', 'interlocks', 'tests', 'findings', 'symptoms'] as const;
const NONE: JsonObject = {};

/**
 * How two tree documents, as their authors have them, differ in what they say, part by part: first the tree itself, then
 * bench, interlocks, tests, findings, symptoms and steps, each in the latter's order with what is gone after it. The order of
 * JSON keys that says nothing is no difference, nor is an empty list or record for an absent one.
 */
export function compareTrees(before: JsonObject, after: JsonObject): readonly Difference[] {
  const both = { before, after };
  return [
    ...changed(both, [], fieldDifferences(before, after, [], HOLDERS), false),
    ...entryDifferences(both, ['bench']),
    ...interlockDifferences(both),
    ...entryDifferences(both, ['tests']),
    ...entryDifferences(both, ['findings']),
    ...entryDifferences(both, ['symptoms'], ['steps']),
    ...stepDifferences(both),
  ];
}

interface Both {
  readonly before: JsonObject;
  readonly after: JsonObject;
}

function entryDifferences(both: Both, place: Place, without: readonly string[] = []): readonly Difference[] {
  const before = recordAt(both.before, place);
  const after = recordAt(both.after, place);
  if (before === after) return [];
  const now = Object.keys(after).filter((id) => Object.hasOwn(before, id));
  const staying = stayingOf(
    Object.keys(before).filter((id) => Object.hasOwn(after, id)),
    now,
  );
  return [
    ...Object.keys(after).flatMap((id) => {
      const at = [...place, id];
      if (!Object.hasOwn(before, id)) return [whole(both, 'added', at, after[id])];
      return changed(both, at, fieldDifferences(before[id], after[id], at, without), !staying.has(id));
    }),
    ...Object.keys(before).flatMap((id) =>
      Object.hasOwn(after, id) ? [] : [whole(both, 'removed', [...place, id], before[id])],
    ),
  ];
}

function stepDifferences(both: Both): readonly Difference[] {
  const before = recordAt(both.before, ['symptoms']);
  return Object.keys(recordAt(both.after, ['symptoms'])).flatMap((symptom) =>
    Object.hasOwn(before, symptom) ? entryDifferences(both, ['symptoms', symptom, 'steps']) : [],
  );
}

function interlockDifferences(both: Both): readonly Difference[] {
  const before = listAt(both.before, 'interlocks');
  const after = listAt(both.after, 'interlocks');
  const pairs = alignLists(before, after);
  const latterOf = new Map(pairs);
  const formerOf = new Map(pairs.map(([one, other]) => [other, one]));
  const gone = before.flatMap((_, index) => (latterOf.has(index) ? [] : [index]));
  const come = after.flatMap((value, index): readonly Difference[] => {
    const at = ['interlocks', index];
    const former = formerOf.get(index);
    if (former !== undefined) return changed(both, at, fieldDifferences(before[former], value, at), false);
    const from = gone.findIndex((place) => sameMeaning(before[place], value, at));
    if (from < 0) return [whole(both, 'added', at, value)];
    gone.splice(from, 1);
    return changed(both, at, [], true);
  });
  return [...come, ...gone.map((index) => whole(both, 'removed', ['interlocks', index], before[index]))];
}

function changed(
  { after }: Both,
  at: Place,
  fields: readonly FieldDifference[],
  moved: boolean,
): readonly Difference[] {
  if (fields.length === 0 && !moved) return [];
  const kind = fields.length === 0 ? 'moved' : 'changed';
  return [{ part: pointerOf(at), kind, title: titleOf(after, at), moved, fields }];
}

function whole(both: Both, kind: 'added' | 'removed', at: Place, value: Json | undefined): Difference {
  const part = pointerOf(at);
  const document = kind === 'added' ? both.after : both.before;
  const held = value === undefined ? {} : kind === 'added' ? { after: value } : { before: value };
  return { part, kind, title: titleOf(document, at), moved: false, fields: [{ at: part, ...held }] };
}

function recordAt(document: JsonObject, place: Place): JsonObject {
  let value: Json | undefined = document;
  for (const key of place) value = isRecord(value) ? own(value, String(key)) : undefined;
  return isRecord(value) ? value : NONE;
}

function listAt(document: JsonObject, key: string): readonly Json[] {
  const value = document[key];
  return isList(value) ? value : [];
}
