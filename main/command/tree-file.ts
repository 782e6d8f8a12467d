import { closeSync, openSync, readSync } from 'node:fs';
import { readAndCheck, type Problem, type Tree } from '../../trees/document/index.ts';
import { problemJson, problemLines, value, wrongUse, type Or } from './outcome.ts';

/** One byte more than the reader takes, so that it can say that a file is too large without all of it being read. */
const MOST_BYTES = 5 * 1024 * 1024 + 1;

export interface CheckedFile {
  readonly file: string;
  readonly tree: Tree | null;
  readonly errors: readonly Problem[];
  readonly warnings: readonly Problem[];
}

/** Reads and checks a tree document; a file that cannot be read at all is wrong use. */
export function checkFile(file: string): Or<CheckedFile> {
  const bytes = readStart(file);
  if (!bytes.ok) return bytes;
  return value({ file, ...readAndCheck(bytes.value) });
}

/** A tree that can be walked, or the outcome that lists what is wrong with it. */
export function soundTree(file: string): Or<Tree> {
  const sound = soundDocument(file);
  return sound.ok ? value(sound.value.tree) : sound;
}

/** A tree that can be walked with the text it was read from, or the outcome that lists what is wrong with it. */
export function soundDocument(file: string): Or<{ readonly tree: Tree; readonly written: string }> {
  const bytes = readStart(file);
  if (!bytes.ok) return bytes;
  const { tree, errors, warnings } = readAndCheck(bytes.value);
  if (tree !== null) return value({ tree, written: new TextDecoder().decode(bytes.value) });
  const json = { files: [{ file, errors: errors.map(problemJson), warnings: warnings.map(problemJson) }] };
  return {
    ok: false,
    outcome: { status: 1, text: `${file} cannot be walked:\n${problemLines(errors)}`, json },
  };
}

function readStart(file: string): Or<Uint8Array> {
  try {
    return value(readAtMost(file, MOST_BYTES));
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    return wrongUse(
      `${file} cannot be read: ${reason}.`,
      'Name a tree document that exists and that you may read.',
    );
  }
}

function readAtMost(file: string, most: number): Uint8Array {
  const descriptor = openSync(file, 'r');
  try {
    const bytes = new Uint8Array(most);
    let length = 0;
    for (let got = -1; got !== 0 && length < most; length += got) {
      got = readSync(descriptor, bytes, length, most - length, null);
    }
    return bytes.subarray(0, length);
  } finally {
    closeSync(descriptor);
  }
}
