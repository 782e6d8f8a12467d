import { isRecord, type Json, type JsonObject } from '../json.ts';
import { valueAt } from '../value-at.ts';
import type { Place } from './place.ts';

/** What a part of a document is called: its title, a step by its test's, an interlock by its reason; failing that its id. */
export function titleOf(document: JsonObject, part: Place): string {
  const value = valueAt(document, part) as Json | undefined;
  if (!isRecord(value)) return String(part.at(-1) ?? '');
  const given =
    part[0] === 'interlocks' ? value.because : part.length === 4 ? testTitle(document, value) : value.title;
  return typeof given === 'string' && given.trim() !== '' ? given : String(part.at(-1) ?? value.id ?? '');
}

function testTitle(document: JsonObject, { test }: JsonObject): Json | undefined {
  if (typeof test !== 'string') return undefined;
  return (valueAt(document, ['tests', test, 'title']) as Json | undefined) ?? test;
}
