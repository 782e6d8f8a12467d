import type { Change } from '../change.ts';
import type { DraftDocument, JsonObject } from '../json.ts';
import { isRecord } from '../json.ts';
import { keysAt } from './keys-at.ts';
import type { Made } from './made.ts';
import { newId } from './new-id.ts';
import { at, drop, enter, put } from './put.ts';

/** A branch of a path: the step it leaves and the result it leaves by. */
export interface BranchPlace {
  readonly symptom: string;
  readonly step: string;
  readonly result: string;
}

/**
 * Adds a step that makes a test. With `from` that branch leads to it, and where the branch led somewhere before, the new
 * step's first result goes on there. A path without a first step starts with it.
 */
export function addStep(document: DraftDocument, symptom: string, test: string, from?: BranchPlace): Made {
  const path = ['symptoms', symptom, 'steps'];
  const id = newId(test, keysAt(document, path), 'step');
  const former = from === undefined ? undefined : goOf(document, from);
  const [first] = keysAt(document, ['tests', test, 'results']);
  const onward = former === undefined || first === undefined ? {} : { [first]: { go: former } };
  const added = enter(document, path, id, { test, then: onward });
  const starts = at(document, ['symptoms', symptom, 'first']) === undefined;
  return {
    id,
    changes: [
      ...added,
      ...(from === undefined ? [] : link(document, from, goTo(from.symptom, symptom, id))),
      ...(starts ? put(document, ['symptoms', symptom, 'first'], id) : []),
    ],
  };
}

/** Makes a branch lead to a place; its weight stays. A branch that is not there yet is put where the test's results have it. */
export function link(
  document: DraftDocument,
  { symptom, step, result }: BranchPlace,
  go: string,
): readonly Change[] {
  const path = ['symptoms', symptom, 'steps', step, 'then'];
  if (at(document, [...path, result]) !== undefined) return put(document, [...path, result, 'go'], go);
  const test = at(document, ['symptoms', symptom, 'steps', step, 'test']);
  const results = keysAt(document, ['tests', String(test), 'results']);
  const before = results.slice(0, results.indexOf(result));
  const place = keysAt(document, path).filter((each) => before.includes(each)).length;
  return enter(document, path, result, { go }, place);
}

/** Leaves a branch without a place to lead to. */
export function unlink(document: DraftDocument, { symptom, step, result }: BranchPlace): readonly Change[] {
  return drop(document, ['symptoms', symptom, 'steps', step, 'then', result]);
}

/** Makes a step make another test. Branches by results that the other test has too stay. */
export function setTest(
  document: DraftDocument,
  symptom: string,
  step: string,
  test: string,
): readonly Change[] {
  const path = ['symptoms', symptom, 'steps', step];
  const then = at(document, [...path, 'then']);
  const results = keysAt(document, ['tests', test, 'results']);
  const kept = isRecord(then)
    ? Object.fromEntries(
        results.flatMap((result) => (Object.hasOwn(then, result) ? [[result, then[result] ?? null]] : [])),
      )
    : {};
  return [{ do: 'set', path, value: { test, then: kept } satisfies JsonObject }];
}

/** How a branch of `from`’s path names a step of `to`’s path. */
export function goTo(from: string, to: string, step: string): string {
  return from === to ? step : `symptom:${to}/${step}`;
}

function goOf(document: DraftDocument, { symptom, step, result }: BranchPlace): string | undefined {
  const go = at(document, ['symptoms', symptom, 'steps', step, 'then', result, 'go']);
  return typeof go === 'string' ? go : undefined;
}
