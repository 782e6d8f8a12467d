import { destination } from '../../document/index.ts';
import { isList, isRecord, type Json, type JsonObject } from '../json.ts';

/** What the parts of a document name, read with no more trust than a draft deserves. */

const NONE: JsonObject = {};

/** The record under a key; empty where there is none. */
export function recordIn(holder: Json | undefined, key: string): JsonObject {
  const value = isRecord(holder) && Object.hasOwn(holder, key) ? holder[key] : undefined;
  return isRecord(value) ? value : NONE;
}

/** The text entries of a list under a key. */
export function textsIn(holder: Json | undefined, key: string): readonly string[] {
  const value = isRecord(holder) && Object.hasOwn(holder, key) ? holder[key] : undefined;
  return isList(value) ? value.filter((entry) => typeof entry === 'string') : [];
}

/** The entries of a record that are records themselves. */
export function entriesOf(record: JsonObject): readonly (readonly [id: string, part: JsonObject])[] {
  return Object.entries(record).flatMap(([id, part]) => (isRecord(part) ? [[id, part] as const] : []));
}

/** Axis and state of each need. */
export function needsOf(part: JsonObject): readonly (readonly [axis: string, state: string])[] {
  return Object.entries(recordIn(part, 'needs')).flatMap(([axis, state]) =>
    typeof state === 'string' ? [[axis, state] as const] : [],
  );
}

/** Tests whose reading a test's bands are ratios to. */
export function referencesOf(test: JsonObject): readonly string[] {
  const found = entriesOf(recordIn(test, 'results')).map(([, result]) => recordIn(result, 'band').of);
  return [...new Set(found.filter((of) => typeof of === 'string'))];
}

/** The picture file that a test shows. */
export function pictureOf(test: JsonObject): string | undefined {
  const { file } = recordIn(test, 'picture');
  return typeof file === 'string' ? file : undefined;
}

/** The test that a step makes. */
export function testOfStep({ test }: JsonObject): string | undefined {
  return typeof test === 'string' ? test : undefined;
}

/** Findings that a path leads to or weighs. */
export function findingsOfSymptom(symptom: JsonObject): readonly string[] {
  const leads = entriesOf(recordIn(symptom, 'steps')).flatMap(([, step]) =>
    entriesOf(recordIn(step, 'then')).flatMap(([, { go }]) => {
      const place = typeof go === 'string' ? destination(go, '') : undefined;
      return place?.kind === 'finding' ? [place.finding] : [];
    }),
  );
  return [...new Set([...leads, ...Object.keys(recordIn(symptom, 'weights'))])];
}

/** What a part is called: its title, failing that its id. */
export function nameOf(part: JsonObject | undefined, id: string): string {
  const title = part?.title;
  return `“${typeof title === 'string' && title.trim() !== '' ? title : id}”`;
}
