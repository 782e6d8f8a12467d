import { clockWords, dayWords } from '../../parts/index.ts';
import type { Opened } from '../desk/opened-draft.ts';
import { shortChecksum } from '../list/revision-words.ts';

const MOST_OF_TITLE = 70;

/** What every leaf says of itself at its foot: of which tree it is, and of which revision or draft. */
export function leafFoot(title: string, opened: Opened): string {
  const short = title.length > MOST_OF_TITLE ? `${title.slice(0, MOST_OF_TITLE - 1)}…` : title;
  if (opened.kind === 'draft') {
    const { lastAt } = opened.full.draft;
    return `${short} · draft of ${dayWords(lastAt)}, ${clockWords(lastAt)}, not published`;
  }
  const { addedAt, checksum } = opened.revision;
  return `${short} · revision of ${dayWords(addedAt)}, SHA-256 ${shortChecksum(checksum)}…`;
}
