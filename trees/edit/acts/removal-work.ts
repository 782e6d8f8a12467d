import { pointerOf } from '../../document/index.ts';
import { makeChanges } from '../apply-changes.ts';
import type { Change, Path } from '../change.ts';
import { isList, type DraftDocument, type Json } from '../json.ts';
import { closed, keysIn, partAt, workOn, type Working } from '../working.ts';
import { leadsOf, type Leads } from './leads.ts';

/** A removal under way: the document as it has come so far, the changes that led there, and what is to be said of them. */
export interface Work {
  readonly so: Working;
  readonly changes: Change[];
  readonly also: { at: string; says: string }[];
  readonly named: ReadonlySet<string>;
  /** What led where as the removal began; it only ever takes out of that. */
  readonly leads: () => Leads;
}

export function openWork(document: DraftDocument, pointers: readonly string[]): Work {
  let leads: Leads | null = null;
  return {
    so: workOn(document),
    changes: [],
    also: [],
    named: new Set(pointers),
    leads: () => (leads ??= leadsOf(document)),
  };
}

/** What stands at a path of the document so far; undefined where there is no such place. */
export function at(work: Work, path: Path): Json | undefined {
  const part = partAt(work.so, path);
  return part === undefined ? undefined : closed(part);
}

export function isAt(work: Work, path: Path): boolean {
  return partAt(work.so, path) !== undefined;
}

/** The keys of the record at a path; none where there is no record. */
export function keysAt(work: Work, path: Path): readonly string[] {
  return keysIn(partAt(work.so, path));
}

/** The changes that leave nothing at a path; none where nothing is there. */
export function drop(work: Work, path: Path): readonly Change[] {
  return isAt(work, path) ? [{ do: 'remove', path }] : [];
}

/** The changes that keep of a list only what passes; none where all of it does. A list left empty stays. */
export function sift(work: Work, path: Path, passes: (entry: Json) => boolean): readonly Change[] {
  const list = at(work, path);
  if (!isList(list)) return [];
  const kept = list.filter(passes);
  return kept.length === list.length ? [] : [{ do: 'set', path, value: kept }];
}

/** Makes changes, and notes in words what they do at a place. */
export function make(work: Work, changes: readonly Change[], place?: Path, says?: string): void {
  if (changes.length === 0) return;
  const made = makeChanges(work.so, changes, Infinity);
  if (!made.ok) throw new Error(`removal-unsteady: ${made.message}`);
  if (place !== undefined && says !== undefined) note(work, place, says);
  work.changes.push(...changes);
}

/** Notes what goes or changes at a place besides what was named. */
export function note(work: Work, place: Path, says: string): void {
  const pointer = pointerOf(place);
  // What was itself named to be taken out is no news.
  const isNamed = place.some((_, depth) => work.named.has(pointerOf(place.slice(0, depth + 1))));
  if (!isNamed && !work.named.has('')) work.also.push({ at: pointer, says });
}

/** A part by its title in quotation marks, or by its id where it has none. */
export function titleOf(work: Work, path: Path): string {
  const title = at(work, [...path, 'title']);
  return quoted(typeof title === 'string' && title !== '' ? title : String(path.at(-1)));
}

/** A step by the test that is made at it, and by its path. */
export function stepOf(work: Work, symptom: string, step: string): string {
  const test = at(work, ['symptoms', symptom, 'steps', step, 'test']);
  const made = typeof test === 'string' ? titleOf(work, ['tests', test]) : quoted(step);
  return `the step ${made} of ${titleOf(work, ['symptoms', symptom])}`;
}

/** A result of the test that is made at a step, by its title. */
export function resultOf(work: Work, symptom: string, step: string, result: string): string {
  const test = at(work, ['symptoms', symptom, 'steps', step, 'test']);
  return titleOf(work, ['tests', typeof test === 'string' ? test : '', 'results', result]);
}

export function quoted(words: string): string {
  return `“${words}”`;
}
