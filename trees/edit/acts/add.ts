import type { Json } from '../json.ts';
import type { DraftDocument } from '../json.ts';
import type { Made } from './made.ts';
import { newId } from './new-id.ts';
import { at, enter } from './put.ts';
import { keysAt } from './keys-at.ts';
import { UNLISTED } from '../../document/index.ts';

/** Adds a test with two results that are chosen; the rest is for its author to say. */
export function addTest(document: DraftDocument, title: string): Made {
  const id = newId(title, keysAt(document, ['tests']), 'test');
  const test = {
    title,
    ask: '',
    instrument: 'eye',
    minutes: 1,
    results: { sound: { title: 'As it should be' }, faulty: { title: 'Not so' } },
  };
  return { id, changes: enter(document, ['tests'], id, test) };
}

/** Adds a finding with one blank remedy step; the rest is for its author to say. */
export function addFinding(document: DraftDocument, title: string): Made {
  const id = newId(title, [...keysAt(document, ['findings']), UNLISTED], 'finding');
  const finding = { title, because: '', remedy: { steps: [''], minutes: 10 } };
  return { id, changes: enter(document, ['findings'], id, finding) };
}

/** Adds a symptom, whose path and weights are still to come. */
export function addSymptom(document: DraftDocument, title: string): Made {
  const id = newId(title, keysAt(document, ['symptoms']), 'symptom');
  return { id, changes: enter(document, ['symptoms'], id, { title, steps: {} }) };
}

/** Adds a copy of a test or finding behind it, under an id of its own. Nothing where there is no such one. */
export function duplicate(document: DraftDocument, kind: 'tests' | 'findings', id: string): Made | null {
  const one = at(document, [kind, id]);
  if (typeof one !== 'object' || one === null || Array.isArray(one)) return null;
  const former: Json = (one as { readonly title?: Json }).title ?? '';
  const title = `${typeof former === 'string' ? former : ''}, copy`;
  const keys = keysAt(document, [kind]);
  const copied = newId(title, [...keys, UNLISTED], 'copy');
  return { id: copied, changes: enter(document, [kind], copied, { ...one, title }, keys.indexOf(id) + 1) };
}

/** Adds a result to a test, last or at a place. The first result is what a sound unit gives. */
export function addResult(document: DraftDocument, test: string, title: string, place?: number): Made {
  const path = ['tests', test, 'results'];
  const id = newId(title, keysAt(document, path), 'result');
  return { id, changes: enter(document, path, id, { title }, place) };
}
