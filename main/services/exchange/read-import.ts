import { readTree } from '../../../trees/document/index.ts';
import { liveTree, openDraft } from '../../../trees/edit/index.ts';
import { quoted, readPicture } from './read-picture.ts';
import { refuse, taken, type Taken } from './refusal.ts';
import { tellUnreadable } from './tell-unreadable.ts';
import { ONLY_A_TREE } from './zip/directory.ts';
import { isZip, LARGEST_ZIP_BYTES, unzip, type UnzippedFile } from './zip/unzip.ts';

/** A tree as a file brought it: the document as it was written, and the pictures that came with it. */
export interface ImportedTree {
  readonly treeId: string;
  readonly text: string;
  readonly pictures: readonly { readonly file: string; readonly bytes: Uint8Array }[];
  /** Pictures that its tests name and that did not come with it. */
  readonly missing: readonly string[];
}

const DOCUMENT = /\.tree\.json$/i;

/**
 * Reads a file that is to become a draft: a zip of one tree document and its pictures, or a bare tree document. The document may
 * have errors, since a draft can be mended, but not of its shape: only texts may be missing. Takes any bytes; never throws.
 */
export function readImport(name: string, bytes: Uint8Array): Taken<ImportedTree> {
  const read = readFile(bytes);
  return read.ok ? read : { ...read, message: `${quoted(name)} was not taken in. ${read.message}` };
}

function readFile(bytes: Uint8Array): Taken<ImportedTree> {
  if (bytes.length > LARGEST_ZIP_BYTES) return refuse('The file has more than 8 MiB.', SMALLER);
  if (!isZip(bytes)) {
    return isObject(bytes) && !isAnother(bytes) ? readDocument(bytes, []) : refuse(NEITHER, A_TREE);
  }
  const files = unzip(bytes);
  if (!files.ok) return files;
  const documents = files.value.filter(({ name }) => DOCUMENT.test(name));
  const [document] = documents;
  if (document === undefined) return refuse('The zip holds no tree document.', ONLY_A_TREE);
  if (documents.length > 1)
    return refuse('The zip holds several tree documents.', 'Pack each tree by itself.');
  if (isAnother(document.bytes)) return refuse(`In the zip ${quoted(document.name)} is no tree.`, A_TREE);
  return readDocument(
    document.bytes,
    files.value.filter((file) => file !== document),
  );
}

const NEITHER = 'This is neither a tree document nor a zip of one.';
const A_TREE = 'Choose a .tree.json file, or a zip as Ohmward exports it.';

/** Whether the first thing in the bytes, after a byte order mark and white space, is a brace. */
function isObject(bytes: Uint8Array): boolean {
  return /^\uFEFF?\s*\{/.test(new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes.subarray(0, 1000)));
}

/** Whether the bytes are JSON of another kind: no tree's format, and nothing that a tree holds. What is no JSON may be a tree gone wrong. */
function isAnother(bytes: Uint8Array): boolean {
  const value = parsed(new TextDecoder().decode(bytes));
  if (typeof value !== 'object' || value === null) return false;
  const isOfOurs = 'format' in value && typeof value.format === 'string' && FORMAT.test(value.format);
  return !isOfOurs && !PARTS.some((part) => Object.hasOwn(value, part));
}

const FORMAT = /^ohmward-tree\//;
const PARTS = ['tests', 'findings', 'symptoms'];

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const SMALLER = 'Choose another file, or make the pictures in it smaller.';

function readDocument(bytes: Uint8Array, files: readonly UnzippedFile[]): Taken<ImportedTree> {
  const text = new TextDecoder().decode(bytes);
  const problems = readTree(bytes).problems.filter(({ rule }) => rule !== 'empty-text');
  if (problems.length > 0) return tellUnreadable(problems, parsed(text));
  const opened = openDraft(text);
  if (!opened.ok) return refuse(opened.message, 'Choose a tree document.');
  const { tree } = liveTree(opened.draft.document);
  const named = new Set(Object.values(tree.tests).flatMap(({ picture }) => picture?.file ?? []));
  const pictures: ImportedTree['pictures'][number][] = [];
  for (const file of files) {
    const picture = pictureOf(file, named);
    if (!picture.ok) return picture;
    pictures.push({ file: file.name, bytes: picture.value });
    named.delete(file.name);
  }
  return taken({ treeId: tree.id, text, pictures, missing: [...named] });
}

function pictureOf({ name, bytes }: UnzippedFile, named: ReadonlySet<string>): Taken<Uint8Array> {
  if (!named.has(name)) return refuse(`No test of the tree shows ${quoted(name)}.`, ONLY_A_TREE);
  const picture = readPicture(name, bytes);
  if (!picture.ok) return picture;
  const { endings } = picture.value;
  if (endings.some((ending) => name.endsWith(ending))) return taken(picture.value.bytes);
  return refuse(
    `${quoted(name)} is not what its name says.`,
    `Give it a name that ends in ${endings[0]}, in the zip and in the document.`,
  );
}
