import { isRecord, type Json, type JsonObject } from '../json.ts';
import { pasteNeeds } from './paste-bench.ts';
import { idFor, type Pasting } from './pasting.ts';
import { nameOf, pictureOf, recordIn, referencesOf } from './parts-of.ts';

/**
 * Sees to it that a test of the clip is in the document and gives its id there: the document's own where it has just this
 * test, else a new one. Undefined where neither clip nor document has it.
 */
export function pasteTest(pasting: Pasting, id: string): string | undefined {
  const known = pasting.tests.get(id);
  if (known !== undefined) return known;
  const here = recordIn(pasting.document, 'tests');
  const source = pasting.clip.tests[id];
  if (source === undefined) return Object.hasOwn(here, id) ? id : undefined;
  // A ratio that leads back to its own test is the checker's to tell; here it must only come to an end.
  pasting.tests.set(id, id);
  const test = rewritten(pasting, source);
  const others = (name: string) => pasting.added.tests.get(name) ?? own(here, name);
  const found = idFor(id, test, 'tests', others);
  pasting.tests.set(id, found.id);
  if (found.isNew) pasting.added.tests.set(found.id, test);
  tell(pasting, id, source, found);
  return found.id;
}

function rewritten(pasting: Pasting, source: JsonObject): JsonObject {
  const needs = pasteNeeds(pasting, source);
  const names = new Map(referencesOf(source).map((id) => [id, pasteTest(pasting, id)]));
  const results = Object.entries(recordIn(source, 'results')).map(
    ([id, result]) => [id, isRecord(result) ? renamed(result, names) : result] as const,
  );
  return {
    ...source,
    ...(Object.hasOwn(source, 'needs') ? { needs } : {}),
    results: Object.fromEntries(results),
  };
}

/** A ratio to a test that is nowhere loses its band: as a plain limit it would mean something else. */
function renamed(result: JsonObject, names: ReadonlyMap<string, string | undefined>): Json {
  const band = recordIn(result, 'band');
  if (typeof band.of !== 'string') return result;
  const of = names.get(band.of);
  if (of !== undefined) return { ...result, band: { ...band, of } };
  return Object.fromEntries(Object.entries(result).filter(([key]) => key !== 'band'));
}

function tell(
  { clip, notes }: Pasting,
  id: string,
  test: JsonObject,
  found: { id: string; isNew: boolean },
): void {
  const name = nameOf(test, id);
  const asked = clip.asked.tests.includes(id);
  if (!found.isNew) {
    if (asked) notes.push(`The test ${name} is here already and is used as it is.`);
    return;
  }
  if (!asked) notes.push(`The test ${name} comes along.`);
  if (found.id !== id) notes.push(`Another test has the id ${id} here: the copy of ${name} is ${found.id}.`);
  const file = pictureOf(test);
  if (file !== undefined) notes.push(`The test ${name} shows the picture ${file}.`);
}

function own(record: JsonObject, id: string): JsonObject | undefined {
  const value = Object.hasOwn(record, id) ? record[id] : undefined;
  return isRecord(value) ? value : undefined;
}
