import type { Path } from '../change.ts';
import { isRecord, type DraftDocument } from '../json.ts';
import { at } from './put.ts';

/** The keys of the record at a path; none where there is no record. */
export function keysAt(document: DraftDocument, path: Path): readonly string[] {
  const record = at(document, path);
  return isRecord(record) ? Object.keys(record) : [];
}
