import { type Records, type StoredDraft } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { workingTechnician } from '../append.ts';
import { freeTreeId } from '../drafts/index.ts';
import { quoted } from './read-picture.ts';
import { readImport, type ImportedTree } from './read-import.ts';

/** A file that is to become a draft. */
export interface ImportRequest {
  readonly technicianId: string;
  readonly name: string;
  readonly base64: string;
}

/**
 * Takes a tree that came as a file in as a draft: as the text it came as, standing on the current revision of the tree it names
 * where the shop has that. Durable when it answers. Refused where a picture it shows neither came with it nor is the shop's.
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
  const baseBytes = new TextEncoder().encode(text);
  return answer(records.drafts.start({ treeId, baseRevision, baseBytes, technicianId, pictures }));
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
