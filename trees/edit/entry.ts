import { z } from 'zod';
import { changeSchema, type Change } from './change.ts';

/** Changes that one edit may make, and one step of undo take back: above what cutting a large path takes. */
export const MOST_CHANGES = 20_000;

/** Entries that they may shift: 2,000 changes in a path of 9,000 steps shift 18 million, a tree of 2,000 steps altogether 4. */
export const MOST_SHIFTED = 30_000_000;

/**
 * What is recorded of a draft; a draft is its base and the list of these.
 *
 * - `edit`: changes made together, and what they are in words. With `joins` they are undone and redone with the edit before.
 * - `undo`, `redo`: the last edit that stands is taken back; the last one taken back stands again.
 * - `rebase`: the draft now stands on another published revision, what that one changed having been merged by the edit before.
 *   Nothing before it can be undone any more.
 */
export const draftEntrySchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('edit'),
    what: z.string().min(1).max(300),
    changes: z.array(changeSchema).min(1).max(MOST_CHANGES),
    joins: z.literal(true).optional(),
  }),
  z.strictObject({ kind: z.literal('undo') }),
  z.strictObject({ kind: z.literal('redo') }),
  z.strictObject({ kind: z.literal('rebase'), revisionId: z.uuidv7() }),
]);

export type DraftEntry =
  | {
      readonly kind: 'edit';
      readonly what: string;
      readonly changes: readonly Change[];
      readonly joins?: true;
    }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' }
  | { readonly kind: 'rebase'; readonly revisionId: string };
