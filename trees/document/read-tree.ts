import { DOCUMENT_LIMITS } from './document-limits.ts';
import { pathOf } from './pointer.ts';
import { errorAt, firstProblems, type Problem } from './problem.ts';
import { scanJson } from './scan-json.ts';
import { treeSchema } from './schema.ts';
import { setAside, type Remains } from './set-aside.ts';
import { shapeProblems } from './shape-problem.ts';
import { valueAt } from './value-at.ts';
import type { Tree } from './tree.ts';

const LARGEST = DOCUMENT_LIMITS.bytes;

/**
 * In every runtime this room runs in, yet not in the language's own library, which is all that is in scope here.
 * WHATWG Encoding: `fatal` makes bytes that are not UTF-8 throw; a byte order mark is left out of the text.
 */
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal: boolean },
) => { decode(bytes: Uint8Array): string };

/** A file read as far as it goes: with any problem `tree` is null, and `remains` is what can be checked nevertheless. */
export interface Reading {
  readonly tree: Tree | null;
  readonly problems: readonly Problem[];
  readonly remains: () => Remains | null;
}

/**
 * Reads a tree document from a file's bytes (or its text) and holds its shape to the schema; what it means is for
 * `checkTree`. Takes anything at all and never throws: with any error `tree` is null and `problems` says
 * where and what to do, for all places at once (the first 500). Defaults are filled in; no id looks up more than its own entry.
 */
export function readTree(source: Uint8Array | string): {
  readonly tree: Tree | null;
  readonly problems: readonly Problem[];
} {
  const { tree, problems } = readDocument(source);
  return { tree, problems: firstProblems(problems) };
}

/** {@link readTree} with all problems, however many, and what remains for the checker in spite of them. */
export function readDocument(source: Uint8Array | string): Reading {
  if (source.length > LARGEST) return refused([tooLarge(source.length)]);
  const text = typeof source === 'string' ? source.replace(/^\uFEFF/, '') : decoded(source);
  if (text === null) return refused([notUtf8(source)]);
  if (text.trim() === '')
    return refused([errorAt([], 'empty', 'The file is empty.', 'Choose another file.')]);
  const scanned = scanJson(text);
  return scanned.some(({ rule }) => STOPPING.has(rule)) ? refused(scanned) : parsed(text, scanned);
}

/** Problems after which the text is no JSON, or too much of it to be parsed. */
const STOPPING = new Set(['syntax', 'too-deep', 'too-many']);

function parsed(text: string, scanned: readonly Problem[]): Reading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    const help = 'Open it in a text editor that checks JSON.';
    return refused([errorAt([], 'syntax', 'The file is not JSON.', help)]);
  }
  const read = treeSchema.safeParse(value);
  // What the form of a value has wrong explains what its shape has; a name that stands twice explains nothing.
  const places = new Set(scanned.flatMap(({ rule, at }) => (rule === 'duplicate-key' ? [] : at)));
  const shape = read.success
    ? []
    : shapeProblems(read.error.issues, value).filter(({ at }) => !places.has(at));
  return {
    tree: read.success && scanned.length === 0 ? read.data : null,
    problems: [...scanned, ...shape],
    remains: () => setAside(value, lostPlaces(value, scanned)),
  };
}

/** Where parsing has lost entries: of a record that stood there twice, and under a name that cannot be one. */
function lostPlaces(value: unknown, scanned: readonly Problem[]): readonly string[] {
  return scanned
    .filter(({ rule, at }) => {
      const kept = rule === 'duplicate-key' ? valueAt(value, pathOf(at)) : undefined;
      return rule === 'unsafe-key' || (typeof kept === 'object' && kept !== null);
    })
    .map(({ at }) => at);
}

function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

function refused(problems: readonly Problem[]): Reading {
  return { tree: null, problems, remains: () => null };
}

function tooLarge(size: number): Problem {
  const message = `The file is ${(size / 1024 / 1024).toFixed(1)} MiB; a tree document has at most ${String(LARGEST / 1024 / 1024)} MiB.`;
  return errorAt(
    [],
    'too-large',
    message,
    'Check that this is the right file; keep pictures in files of their own.',
  );
}

function notUtf8(source: Uint8Array | string): Problem {
  const lenient =
    typeof source === 'string' ? source : new TextDecoder('utf-8', { fatal: false }).decode(source);
  const line = lenient.slice(0, lenient.indexOf('\uFFFD')).split('\n').length;
  const message = `Line ${String(line)} has bytes that are not UTF-8 text.`;
  return errorAt([], 'not-utf8', message, 'Save the file again with the encoding UTF-8.');
}
