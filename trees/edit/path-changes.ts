import { own, type Tree } from '../document/index.ts';
import { put } from './acts/put.ts';
import { applyChanges } from './apply-changes.ts';
import type { Change } from './change.ts';
import { isRecord, type DraftDocument, type Json } from './json.ts';
import { liveTree } from './live-tree.ts';
import { changesTo } from './merge/index.ts';

/**
 * The changes that give a document the path that a proposed tree has for a symptom, and what that tree has written out with it: the
 * symptoms' weights and what findings expect. Steps that stay what they were stay as they are written. For a tree that
 * differs from the document's in no more than that.
 */
export function pathChanges(document: DraftDocument, proposed: Tree, symptomId: string): readonly Change[] {
  const { tree } = liveTree(document);
  const wanted = [
    ...Object.entries(proposed.findings).flatMap(([id, { expects }]) =>
      changed(document, ['findings', id, 'expects'], own(tree.findings, id)?.expects, expects),
    ),
    ...Object.entries(proposed.symptoms).flatMap(([id, { weights }]) =>
      changed(document, ['symptoms', id, 'weights'], own(tree.symptoms, id)?.weights, weights),
    ),
    ...stepChanges(document, tree, proposed, symptomId),
  ];
  const applied = applyChanges(document, wanted);
  return applied.ok ? changesTo(document, applied.document) : wanted;
}

function stepChanges(
  document: DraftDocument,
  tree: Tree,
  proposed: Tree,
  symptomId: string,
): readonly Change[] {
  const { first, steps = {} } = own(proposed.symptoms, symptomId) ?? {};
  const former = own(tree.symptoms, symptomId);
  const written = recordAt(document.symptoms, symptomId, 'steps');
  const each = Object.entries(steps).map(([id, step]): [string, Json] => {
    const asWritten = own(written, id);
    return [
      id,
      asWritten !== undefined && isAlike(own(former?.steps ?? {}, id), step) ? asWritten : plain(step),
    ];
  });
  const path = ['symptoms', symptomId];
  return [
    ...(first === undefined ? [] : put(document, [...path, 'first'], first)),
    ...put(document, [...path, 'steps'], Object.fromEntries(each)),
  ];
}

function changed(
  document: DraftDocument,
  path: readonly string[],
  former: object | undefined,
  now: object,
): readonly Change[] {
  return isAlike(former, now) ? [] : put(document, path, plain(now));
}

function isAlike(one: object | undefined, other: object): boolean {
  return one !== undefined && JSON.stringify(one) === JSON.stringify(other);
}

function recordAt(symptoms: Json | undefined, ...keys: readonly string[]): Readonly<Record<string, Json>> {
  let value = symptoms;
  for (const key of keys) value = isRecord(value) ? own(value, key) : undefined;
  return isRecord(value) ? value : {};
}

function plain(value: object): Json {
  return JSON.parse(JSON.stringify(value)) as Json;
}
