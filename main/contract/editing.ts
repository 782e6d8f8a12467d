import { z } from 'zod';
import { idSchema } from '../../trees/document/index.ts';
import {
  draftFromSchema,
  draftSchema,
  draftSummarySchema,
  newEntriesSchema,
  noteSchema,
  passphraseSchema,
  pastJobSchema,
  pastReadingSchema,
  revisionSummarySchema,
} from './drafts.ts';
import { addPicture } from './exchange.ts';
import { base } from './failures.ts';
import { historySchema, pictureSchema, recordIdSchema, treeSummarySchema } from './records.ts';

const technicianId = recordIdSchema;
/** The tree's current revision as the app has shown it; null for a tree not yet published. */
const onto = recordIdSchema.nullable();
/** What `lock.unlock` gave, where publishing is locked. */
const key = z.string().max(100).optional();

/** Drafts of trees, from beginning to publishing or discarding. */
export const drafts = {
  /** Those that have not ended, the one begun last first. */
  list: base.output(z.array(draftSummarySchema)),
  start: base.input(z.strictObject({ technicianId, from: draftFromSchema })).output(draftSchema),
  get: base.input(z.strictObject({ draftId: recordIdSchema })).output(draftSchema),
  /** Durable when it answers, with the number of entries there are now. */
  append: base.input(newEntriesSchema).output(z.strictObject({ entries: z.int().min(1) })),
  discard: base
    .input(z.strictObject({ draftId: recordIdSchema, technicianId }))
    .output(z.strictObject({ draftId: recordIdSchema })),
  /** The draft's own picture of that name or, failing that, that of the revision it stands on. */
  picture: base.input(z.strictObject({ draftId: recordIdSchema, file: z.string() })).output(pictureSchema),
  addPicture,
  /**
   * What the shop has seen of the tree's units, sorted as it would be were the draft published now; `entries` is how many the draft has
   * then.
   */
  history: base
    .input(z.strictObject({ draftId: recordIdSchema }))
    .output(z.strictObject({ entries: z.int().min(0), history: historySchema })),
  /** `seq` is the number of entries that the draft has as the app has shown it: what nobody has seen is not published. */
  publish: base
    .input(
      z.strictObject({
        draftId: recordIdSchema,
        seq: z.int().min(0),
        technicianId,
        note: noteSchema,
        onto,
        key,
      }),
    )
    .output(treeSummarySchema),
};

export const revisions = {
  /** All revisions of a tree, newest first. */
  list: base.input(z.strictObject({ treeId: idSchema })).output(z.array(revisionSummarySchema)),
  /** The same bytes and pictures as a new revision. */
  publishAgain: base
    .input(
      z.strictObject({
        revisionId: recordIdSchema,
        technicianId,
        note: noteSchema,
        onto: recordIdSchema,
        key,
      }),
    )
    .output(treeSummarySchema),
};

/** The passphrase that publishing takes, where the shop has set one. */
export const lock = {
  state: base.output(z.strictObject({ set: z.boolean() })),
  /** Sets another passphrase, or takes it away (null). `former` is needed where one is set. */
  set: base
    .input(
      z.strictObject({ passphrase: passphraseSchema.nullable(), former: z.string().max(200).optional() }),
    )
    .output(z.strictObject({ set: z.boolean() })),
  /** A key that publishing takes until it has not been used for so many minutes. */
  unlock: base
    .input(z.strictObject({ passphrase: z.string().max(200) }))
    .output(z.strictObject({ key: z.string(), minutes: z.number() })),
};

/** What closed jobs have shown, as it was recorded. */
export const past = {
  /** Of closed jobs with a confirmed finding, newest first. */
  readings: base
    .input(
      z.strictObject({ treeId: idSchema, test: idSchema, limit: z.int().min(1).max(20_000).default(5000) }),
    )
    .output(z.strictObject({ readings: z.array(pastReadingSchema), more: z.boolean() })),
  /** Closed jobs, newest first. */
  jobs: base
    .input(z.strictObject({ treeId: idSchema, limit: z.int().min(1).max(500).default(100) }))
    .output(z.array(pastJobSchema)),
};
