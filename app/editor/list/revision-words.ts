import type { RevisionSummary } from '../../../main/contract/index.ts';
import { instantWords } from '../../parts/index.ts';

/** Where a revision is from and since when: who published it, or that it came with Ohmward. */
export function revisionWords(revision: RevisionSummary, now: Date): string {
  return `${sourceWords(revision)}, ${instantWords(revision.addedAt, now)}`;
}

/** The same within a sentence: `the revision that came with Ohmward, 26 Nov 14:05`. */
export function revisionInSentence(revision: RevisionSummary, now: Date): string {
  const { source, technician, addedAt } = revision;
  const words =
    technician !== null
      ? `the revision that ${technician} published`
      : source === 'library'
        ? 'the revision that came with Ohmward'
        : source === 'import'
          ? 'the revision that was imported'
          : 'the revision that was published';
  return `${words}, ${instantWords(addedAt, now)}`;
}

/** Who published a revision, or where it came from. */
export function sourceWords({ source, technician }: RevisionSummary): string {
  if (technician !== null) return `Published by ${technician}`;
  return source === 'library' ? 'Came with Ohmward' : source === 'import' ? 'Imported' : 'Published';
}

/** So much of a checksum as tells revisions apart. */
export function shortChecksum(checksum: string): string {
  return checksum.slice(0, 10);
}
