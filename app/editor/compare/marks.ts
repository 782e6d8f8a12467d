import {
  isRecord,
  pathOf,
  pointerOf,
  valueAt,
  type Json,
  type JsonObject,
} from '../../../trees/document/index.ts';
import type { DraftDocument, Told } from '../../../trees/edit/index.ts';
import type { Mark } from '../drawing/index.ts';

/**
 * What the drawing of two documents laid over each other marks: steps and findings that are new, gone or changed; a step whose
 * test has changed is changed too, and a branch that leads elsewhere is marked by itself.
 */
export function marksOf(told: readonly Told[], union: DraftDocument): ReadonlyMap<string, Mark> {
  const marks = new Map<string, Mark>();
  const tests = new Map<string, Mark>();
  for (const { part, kind, fields } of told) {
    const path = pathOf(part);
    if (kind === 'moved') continue;
    if (path[0] === 'tests') tests.set(path[1] ?? '', kind);
    marks.set(part, kind);
    if (path.length === 2 && path[0] === 'symptoms' && kind !== 'changed')
      for (const step of keysAt(union, [...path, 'steps']))
        marks.set(pointerOf([...path, 'steps', step]), kind);
    if (path.length === 4 && kind === 'changed')
      for (const { at, before, after } of fields) {
        const [, , , , then, result] = pathOf(at);
        if (then === 'then' && result !== undefined)
          marks.set(
            pointerOf([...path, 'then', result]),
            isWhole(at) && before === undefined
              ? 'added'
              : isWhole(at) && after === undefined
                ? 'removed'
                : 'changed',
          );
      }
  }
  for (const symptom of keysAt(union, ['symptoms']))
    for (const step of keysAt(union, ['symptoms', symptom, 'steps'])) {
      const at = ['symptoms', symptom, 'steps', step];
      const test = valueAt(union, [...at, 'test']);
      if (typeof test === 'string' && tests.has(test) && !marks.has(pointerOf(at)))
        marks.set(pointerOf(at), 'changed');
    }
  return marks;
}

function isWhole(at: string): boolean {
  return pathOf(at).length === 6;
}

/**
 * The latter document with what is gone from the former put back, so that both can be seen in one drawing: bench states,
 * tests and their results, findings, symptoms, steps and branches. It is for looking at, not for walking.
 */
export function unionOf(before: DraftDocument, after: DraftDocument): DraftDocument {
  return united(before, after, []);
}

/** Records of parts and of what parts are made of; in them, what is gone comes behind what is there. */
const DEPTHS: Readonly<Record<string, readonly number[]>> = {
  bench: [1],
  tests: [1, 2, 3],
  findings: [1],
  symptoms: [1, 2, 3, 4, 5],
};

function united(before: JsonObject, after: JsonObject, path: readonly string[]): JsonObject {
  const there = Object.entries(after).map(([key, value]): [string, Json] => {
    const former = Object.hasOwn(before, key) ? before[key] : undefined;
    const inner = [...path, key];
    return isRecord(former) && isRecord(value) && goesOn(inner)
      ? [key, united(former, value, inner)]
      : [key, value];
  });
  const gone = holdsParts(path) ? Object.entries(before).filter(([key]) => !Object.hasOwn(after, key)) : [];
  return Object.fromEntries([...there, ...gone]);
}

function goesOn(path: readonly string[]): boolean {
  const [group = '', , field, , then] = path;
  if (DEPTHS[group]?.includes(path.length) !== true) return false;
  if (group === 'tests') return path.length < 3 || field === 'results';
  return (
    group !== 'symptoms' || path.length < 3 || (field === 'steps' && (path.length < 5 || then === 'then'))
  );
}

function holdsParts(path: readonly string[]): boolean {
  const [, , field] = path;
  return (
    path.length === 1 ||
    (path.length === 3 && (field === 'results' || field === 'steps')) ||
    (path.length === 5 && path[4] === 'then')
  );
}

function keysAt(document: DraftDocument, path: readonly string[]): readonly string[] {
  const record = valueAt(document, path) as Json | undefined;
  return isRecord(record) ? Object.keys(record) : [];
}
