import { readdirSync, readFileSync } from 'node:fs';
import { readAndCheck, type Tree } from '../../trees/document/index.ts';
import { checksumOf, type NewPicture, type Records } from '../records/index.ts';

/** Where the trees we ship are, seen from here and from the bundle alike. */
export const LIBRARY = new URL('../../trees/library/', import.meta.url);

const SUFFIX = '.tree.json';

/**
 * Adds the trees we ship whose text or pictures the records have not seen, unless the shop's current revision of that tree
 * is its own. Gives what there is to tell: trees that are broken and were left out.
 */
export function addLibrary(records: Records, folder: URL = LIBRARY): readonly string[] {
  const files = readdirSync(folder).filter((file) => file.endsWith(SUFFIX));
  return files.sort().flatMap((file) => addShipped(records, folder, file) ?? []);
}

function addShipped(records: Records, folder: URL, file: string): string | null {
  const bytes = readFileSync(new URL(file, folder));
  const marks = records.trees.marks(file.slice(0, -SUFFIX.length));
  const checksum = checksumOf(bytes);
  const same = marks.filter((mark) => mark.checksum === checksum);
  if (same.some(({ id }) => picturesAreKnown(records, folder, id))) return null;
  const { tree, errors } = readAndCheck(bytes);
  if (tree === null) return broken(file, errors[0]?.message ?? 'It cannot be read.');
  const [current] = records.trees.marks(tree.id);
  if (current !== undefined && current.source !== 'library') return null;
  const pictures = readPictures(folder, tree);
  if (!pictures.ok) return broken(file, `Its picture ${pictures.missing} is not there.`);
  records.addRevision({ bytes, tree, source: 'library', note: '', pictures: pictures.pictures });
  return null;
}

function broken(file: string, what: string): string {
  return `The library’s ${file} was left out. ${what} Install Ohmward again, or tell its makers.`;
}

function picturesAreKnown(records: Records, folder: URL, revisionId: string): boolean {
  return records.pictures.marks(revisionId).every(({ file, checksum }) => {
    const bytes = readIfThere(new URL(file, folder));
    return bytes === null || checksumOf(bytes) === checksum;
  });
}

/** The pictures that a tree's tests show, from the folder the tree is in. */
export function readPictures(
  folder: URL,
  tree: Tree,
):
  | { readonly ok: true; readonly pictures: readonly NewPicture[] }
  | { readonly ok: false; readonly missing: string } {
  const files = new Set(Object.values(tree.tests).flatMap(({ picture }) => picture?.file ?? []));
  const pictures: NewPicture[] = [];
  for (const file of files) {
    const bytes = readIfThere(new URL(file, folder));
    if (bytes === null) return { ok: false, missing: file };
    pictures.push({ file, bytes });
  }
  return { ok: true, pictures };
}

function readIfThere(url: URL): Buffer | null {
  try {
    return readFileSync(url);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null;
    throw error;
  }
}
