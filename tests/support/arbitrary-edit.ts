import fc from 'fast-check';
import { isList, isRecord, type Json, type JsonObject } from '../../trees/document/index.ts';
import { arbitraryDocument } from './arbitrary-tree.ts';
import { drawText, pick, type Draw } from './draw.ts';

type Path = readonly (string | number)[];

/** A drawn document and what random edits have made of it: fields, entries, lists and the order of records. */
export function arbitraryEdited(most = 6): fc.Arbitrary<{ before: JsonObject; after: JsonObject }> {
  return fc.gen().map((draw) => {
    const before = drawnDocument(draw);
    return { before, after: edited(draw, before, most) };
  });
}

/** A drawn document, and what two people have each made of it. */
export function arbitraryFork(
  most = 4,
): fc.Arbitrary<{ base: JsonObject; theirs: JsonObject; yours: JsonObject }> {
  return fc.gen().map((draw) => {
    const base = drawnDocument(draw);
    return { base, theirs: edited(draw, base, most), yours: edited(draw, base, most) };
  });
}

/** A document with all that may be left out given, so that edits meet everything there is. */
function drawnDocument(draw: Draw): JsonObject {
  const drawn = JSON.parse(JSON.stringify(draw(arbitraryDocument))) as JsonObject;
  return { ...drawn, cautions: ['Mind the cell.', 'Mind the supply.', 'x'], summary: drawText(draw) };
}

function edited(draw: Draw, document: JsonObject, most: number): JsonObject {
  const count = draw(fc.nat, { max: most });
  let now = document;
  for (let edit = 0; edit < count; edit += 1) now = once(draw, now);
  return now;
}

/** One random edit, anywhere below the root; the root's own keys stay, as the reader asks for them. */
function once(draw: Draw, document: JsonObject): JsonObject {
  const path = pick(draw, placesOf(document, []));
  return replaced(document, path, (value) => changed(draw, value)) as JsonObject;
}

function placesOf(value: Json, path: Path): readonly Path[] {
  const inner = isList(value)
    ? value.map((item, index) => [index, item] as const)
    : isRecord(value)
      ? Object.entries(value)
      : [];
  return [
    ...(path.length > 0 ? [path] : []),
    ...inner.flatMap(([key, one]) => placesOf(one, [...path, key])),
  ];
}

function replaced(value: Json, [key, ...rest]: Path, by: (value: Json) => Json): Json {
  if (key === undefined) return by(value);
  if (isList(value)) return value.map((item, index) => (index === key ? replaced(item, rest, by) : item));
  if (!isRecord(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [name, name === key ? replaced(one, rest, by) : one]),
  );
}

function changed(draw: Draw, value: Json): Json {
  if (isList(value))
    return changedEntries(
      draw,
      value.map((item, index) => [String(index), item]),
    ).map(([, item]) => item);
  if (isRecord(value)) return Object.fromEntries(changedEntries(draw, Object.entries(value)));
  if (typeof value === 'number') return value + draw(fc.integer, { min: 1, max: 3 });
  return `${drawText(draw)} ${String(draw(fc.nat, { max: 2 }))}`;
}

type Entry = [string, Json];

function changedEntries(draw: Draw, entries: readonly Entry[]): Entry[] {
  const what = pick(draw, ['add', 'remove', 'order', 'add'] as const);
  if (entries.length === 0) return [['another', 'x']];
  if (what === 'order') {
    const length = entries.length;
    return draw(fc.shuffledSubarray<Entry>, [...entries], { minLength: length, maxLength: length });
  }
  const at = draw(fc.nat, { max: entries.length - 1 });
  if (what === 'remove') return entries.toSpliced(at, 1);
  const [, copied] = pick(draw, [...entries]);
  const id = `another-${String(draw(fc.nat, { max: 3 }))}`;
  if (entries.some(([name]) => name === id)) return [...entries];
  return entries.toSpliced(at + draw(fc.nat, { max: 1 }), 0, [id, copied]);
}
