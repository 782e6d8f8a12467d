import { compareTrees, type Difference } from '../../document/index.ts';
import { isRecord, type DraftDocument } from '../json.ts';
import type { Choices, Conflict } from './conflict.ts';
import { mergeValues } from './merge-values.ts';

/** What has become of a draft whose base has been published anew by somebody else meanwhile. */
export interface Merged {
  /** With both sides' changes; where they conflict, the side that is chosen, yours where none is. */
  readonly document: DraftDocument;
  /** What theirs has that the base had not. */
  readonly taken: readonly Difference[];
  /** Everything to be decided, decided or not, in the order of the document. */
  readonly conflicts: readonly Conflict[];
}

/**
 * Merges what two sides have each made of a base, field by field. To change one field in two ways, to take out what the
 * other side has changed, and to add something under the same id with other content are conflicts. It is about what is
 * written: whether the whole can be walked is the checker's to say.
 */
export function mergeDrafts(
  base: DraftDocument,
  theirs: DraftDocument,
  yours: DraftDocument,
  choices: Choices = {},
): Merged {
  const conflicts = new Map<string, Conflict>();
  const document = mergeValues({ choices, conflicts }, { base, theirs, yours }, []);
  return {
    document: isRecord(document) ? document : yours,
    taken: compareTrees(base, theirs),
    conflicts: [...conflicts.values()],
  };
}
