import fc from 'fast-check';
import { applyChanges, type Change, type DraftDocument, type Json } from '../../trees/edit/index.ts';
import type { Draw } from './draw.ts';
import { pick } from './draw.ts';

type Key = string | number;

interface Place {
  readonly path: readonly Key[];
  readonly value: Json;
}

/** A few changes of a document's, wild ones too: whatever they leave is a document of sorts. */
export function drawChanges(draw: Draw, document: DraftDocument): readonly Change[] {
  const places = placesIn(document, []);
  if (places.length === 0) return [];
  const changes = Array.from({ length: draw(fc.integer, { min: 1, max: 2 }) }, () =>
    drawChange(draw, places, document),
  );
  return changes.filter((_, at) => applyChanges(document, changes.slice(0, at + 1)).ok);
}

function drawChange(draw: Draw, places: readonly Place[], document: DraftDocument): Change {
  const { path, value } = pick(draw, places);
  const kind = draw(fc.nat, { max: 9 });
  if (kind === 0) return { do: 'remove', path };
  if (kind === 1) return copied(draw, path, value);
  if (kind === 2) return { do: 'move', path, at: 0 };
  return { do: 'set', path, value: drawValue(draw, value, document) };
}

/** The very same value once more in the same holder: two parts that share their identity. */
function copied(draw: Draw, path: readonly Key[], value: Json): Change {
  const last = path.at(-1);
  if (typeof last === 'number') return { do: 'insert', path: [...path.slice(0, -1), 0], at: 0, value };
  const id = pick(draw, ['copy-0', 'copy-1', 'step-9', 'finding-9']);
  return { do: 'insert', path: [...path.slice(0, -1), id], at: 0, value };
}

function drawValue(draw: Draw, value: Json, document: DraftDocument): Json {
  switch (typeof value) {
    case 'number':
      return pick(draw, [0, 0.25, 0.5, 1, 2, 40]);
    case 'string':
      return pick(draw, [...TEXTS, ...idsOf(document)]);
    default:
      return value;
  }
}

/** Some that touch what can hurt, so that cautions come and go. */
const TEXTS = [
  '',
  'Plain words',
  'Charge the battery.',
  'A lithium cell',
  'Open the mains adapter.',
  'nowhere',
];

function idsOf({ tests, findings, symptoms }: DraftDocument): readonly string[] {
  const ids = (part: Json | undefined): string[] =>
    typeof part === 'object' && part !== null ? Object.keys(part) : [];
  return [
    ...ids(tests),
    ...ids(findings).flatMap((id) => [id, `finding:${id}`]),
    ...ids(symptoms).map((id) => `symptom:${id}`),
    'step-0',
    'step-1',
    'result-0',
    'result-1',
  ];
}

function placesIn(value: Json, path: readonly Key[]): readonly Place[] {
  if (typeof value !== 'object' || value === null) return [];
  const entries: (readonly [Key, Json])[] = Array.isArray(value)
    ? (value as readonly Json[]).map((one, at) => [at, one] as const)
    : Object.entries(value);
  return entries.flatMap(([key, inner]) => {
    const at = [...path, key];
    return [{ path: at, value: inner }, ...placesIn(inner, at)];
  });
}
