import { DOCUMENT_LIMITS, pointerOf } from '../document/index.ts';
import type { MadeChanges } from './apply-changes.ts';
import { MOST_CHANGES } from './entry.ts';
import type { Size } from './size.ts';

/** What is too large, and what to do. */
export interface TooLarge {
  readonly message: string;
  readonly help: string;
}

/**
 * The limit that an edit passes, if any: a document may not grow beyond what publishing takes. One that was beyond it already
 * can be edited as long as it does not grow.
 */
export function limitPassed(
  before: Size,
  { grown, reach }: Extract<MadeChanges, { readonly ok: true }>,
): TooLarge | null {
  const { bytes, values, entries, levels } = DOCUMENT_LIMITS;
  if (reach.entries > entries) {
    return tooLarge(
      `There would be ${String(reach.entries)} entries at ${pointerOf(reach.path)}, where ${String(entries)} can be.`,
      DIVIDE,
    );
  }
  if (reach.levels > levels) return tooLarge(`This nests more than ${String(levels)} levels deep.`, DO_LESS);
  if (grown.values > 0 && before.values + grown.values > values) {
    return tooLarge(`The tree would have more than ${String(values)} values altogether.`, DIVIDE);
  }
  if (grown.bytes > 0 && before.bytes + grown.bytes > bytes) {
    return tooLarge(`The tree would be larger than ${String(bytes / 1024 / 1024)} MiB as a file.`, DIVIDE);
  }
  return null;
}

/** More changes than can be made at once. */
export function tooManyChanges(changes: number): TooLarge {
  const message = `This makes ${String(changes)} changes at once, of which ${String(MOST_CHANGES)} can be made.`;
  return tooLarge(message, DO_LESS);
}

const DO_LESS = 'Nothing was changed. Do it in parts.';
const DIVIDE = 'Nothing was changed. Take out what is not used any more, or make two trees of it.';

function tooLarge(message: string, help: string): TooLarge {
  return { message, help };
}
