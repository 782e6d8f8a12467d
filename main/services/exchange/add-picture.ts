import type { KeptPicture } from '../../contract/index.ts';
import { checksumOf, type Records } from '../../records/index.ts';
import { answer, trouble, type Answer } from '../answer.ts';
import { draftInHand, picturesOfDraft } from '../drafts/index.ts';
import { readPicture } from './read-picture.ts';

const LONGEST_STEM = 60;

/** A picture for a draft, as it came. */
export interface NewPictureFile {
  readonly draftId: string;
  readonly file: string;
  readonly base64: string;
}

/** Takes a picture into a draft. Durable when it answers. A picture that the draft can show already is only named. */
export function addPicture(records: Records, { draftId, file, base64 }: NewPictureFile): Answer<KeptPicture> {
  const stored = draftInHand(records, draftId);
  if (!stored.ok) return stored;
  const read = readPicture(file, Buffer.from(base64, 'base64'));
  if (!read.ok) return trouble('REFUSED_FILE', '/base64', read.message, read.help);
  const { bytes, width, height, endings } = read.value;
  const checksum = checksumOf(bytes);
  const marks = picturesOfDraft(records, stored.value);
  const known = marks.find((mark) => mark.checksum === checksum);
  if (known !== undefined) return answer({ file: known.file, checksum, width, height });
  // A name that another draft has for another picture would show that one's picture in this one's tests once both are merged.
  const name = freeName(file, endings[0], new Set(records.pictures.namesOfTree(stored.value.treeId)));
  records.drafts.addPicture(draftId, { file: name, bytes });
  return answer({ file: name, checksum, width, height });
}

/** A file name as a tree document takes it: small letters, digits and hyphens, and the ending that fits what is in it. */
export function freeName(file: string, ending: string, taken: ReadonlySet<string>): string {
  const stem = stemOf(file);
  for (let number = 1; ; number += 1) {
    const name = `${number === 1 ? stem : `${stem}-${String(number)}`}${ending}`;
    if (!taken.has(name)) return name;
  }
}

function stemOf(file: string): string {
  const stem = file
    .replace(/^.*[/\\]/s, '')
    .replace(/\.[^.]*$/, '')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_STEM)
    .replace(/^-|-$/g, '');
  return stem === '' ? 'picture' : stem;
}
