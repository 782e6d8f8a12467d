import { type Records, type StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { workingTechnician } from '../append.ts';
import { freeTreeId } from '../drafts/index.ts';
import { quoted, readPicture } from './read-picture.ts';
import { readImport, type ImportedTree } from './read-import.ts';

/** A file that is to become a draft. */
export interface ImportRequest {
  readonly technicianId: string;
  readonly name: string;
  readonly base64: string;
}

/**
 * Takes a tree that came as a file in as a draft: as the text it came as, standing on the current revision of the tree it names
 * where the shop has that. Refused where it is that revision to the byte, with its pictures: there is nothing to take in. Durable when it answers. Refused where a picture it shows neither came with it nor is the shop's.
 */
export function importFile(
  records: Records,
  { technicianId, name, base64 }: ImportRequest,
): Answer<StoredDraft> {
  const technician = workingTechnician(records, technicianId);
  if (!technician.ok) return technician;
  const read = readImport(name, Buffer.from(base64, 'base64'));
  if (!read.ok) return trouble('REFUSED_FILE', '/base64', read.message, read.help);
  const { treeId, text, pictures } = read.value;
  const baseRevision = records.trees.currentId(treeId);
  const refused = baseRevision === null ? taken(records, treeId) : null;
  if (refused !== null) return refused;
  const lacking = lackingPictures(records, read.value, baseRevision);
  if (lacking.length > 0) return picturesLacking(name, lacking);
  if (baseRevision !== null && isSame(records, baseRevision, read.value)) return nothingNew(name);
  const baseBytes = new TextEncoder().encode(text);
  return answer(records.drafts.start({ treeId, baseRevision, baseBytes, technicianId, pictures }));
}

function isSame(records: Records, revisionId: string, { text, pictures }: ImportedTree): boolean {
  if (records.trees.find(revisionId)?.text !== text) return false;
  return pictures.every(({ file, bytes }) => {
    const known = records.pictures.find(revisionId, file);
    return known !== null && asTakenIn(file, Buffer.from(known.base64, 'base64')).equals(bytes);
  });
}

/** A picture of the shop’s as it would be taken in from a file: a drawing is written anew then, also one that came with Ohmward. */
function asTakenIn(file: string, bytes: Buffer): Buffer {
  const read = readPicture(file, bytes);
  return read.ok ? Buffer.from(read.value.bytes) : bytes;
}

function nothingNew(name: string): Answer<never> {
  const message = `${quoted(name)} is the same as the tree’s current revision, which the shop has. No draft was made of it.`;
  const help = 'There is nothing to do. To change the tree, edit it from the list.';
  return trouble('REFUSED_FILE', '/base64', message, help);
}

function taken(records: Records, treeId: string): Answer<never> | null {
  const free = freeTreeId(records, treeId);
  if (free.ok) return null;
  const { message } = free.trouble;
  return trouble(
    'ID_TAKEN',
    '/base64',
    message,
    'Go on with that draft, or discard it and take the file in again.',
  );
}

function lackingPictures(
  records: Records,
  { missing }: ImportedTree,
  baseRevision: string | null,
): readonly string[] {
  const marks = baseRevision === null ? [] : records.pictures.marks(baseRevision);
  const known = new Set(marks.map(({ file }) => file));
  return missing.filter((file) => !known.has(file));
}

function picturesLacking(name: string, files: readonly string[]): Answer<never> {
  const some = files.slice(0, 5).join(', ');
  const rest = files.length > 5 ? ` and ${String(files.length - 5)} more` : '';
  const message = `${quoted(name)} was not taken in. Its tests show pictures that are not there: ${some}${rest}.`;
  const help =
    'Pack the document and its pictures into one zip and take that, or take the pictures off the tests.';
  return trouble('REFUSED_FILE', '/base64', message, help);
}
