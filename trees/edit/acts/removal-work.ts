import { pointerOf } from '../../document/index.ts';
import { applyChanges } from '../apply-changes.ts';
import type { Change, Path } from '../change.ts';
import type { DraftDocument } from '../json.ts';
import { keysAt } from './keys-at.ts';
import { at } from './put.ts';

/** A removal under way: the document so far, the changes that led there, and what is to be said of them. */
export interface Work {
  document: DraftDocument;
  readonly changes: Change[];
  readonly also: { at: string; says: string }[];
  readonly named: ReadonlySet<string>;
}

/** Makes changes, and notes in words what they do at a place. */
export function make(work: Work, changes: readonly Change[], place?: Path, says?: string): void {
  if (changes.length === 0) return;
  const applied = applyChanges(work.document, changes);
  if (!applied.ok) throw new Error(`removal-unsteady: ${applied.message}`);
  if (place !== undefined && says !== undefined) note(work, place, says);
  work.document = applied.document;
  work.changes.push(...changes);
}

/** Notes what goes or changes at a place besides what was named. */
export function note(work: Work, place: Path, says: string): void {
  const pointer = pointerOf(place);
  // What was itself named to be taken out is no news.
  if ([...work.named].every((named) => pointer !== named && !pointer.startsWith(`${named}/`)))
    work.also.push({ at: pointer, says });
}

/** All steps of a document, each with its symptom. */
export function steps(document: DraftDocument): readonly (readonly [string, string])[] {
  return keysAt(document, ['symptoms']).flatMap((symptom) =>
    keysAt(document, ['symptoms', symptom, 'steps']).map((step) => [symptom, step] as const),
  );
}

/** A part by its title in quotation marks, or by its id where it has none. */
export function titleOf(work: Work, path: Path): string {
  const title = at(work.document, [...path, 'title']);
  return quoted(typeof title === 'string' && title !== '' ? title : String(path.at(-1)));
}

/** A step by the test that is made at it, and by its path. */
export function stepOf(work: Work, symptom: string, step: string): string {
  const test = at(work.document, ['symptoms', symptom, 'steps', step, 'test']);
  const made = typeof test === 'string' ? titleOf(work, ['tests', test]) : quoted(step);
  return `the step ${made} of ${titleOf(work, ['symptoms', symptom])}`;
}

/** A result of the test that is made at a step, by its title. */
export function resultOf(work: Work, symptom: string, step: string, result: string): string {
  const test = at(work.document, ['symptoms', symptom, 'steps', step, 'test']);
  return titleOf(work, ['tests', typeof test === 'string' ? test : '', 'results', result]);
}

export function quoted(words: string): string {
  return `“${words}”`;
}
