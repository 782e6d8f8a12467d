import { z } from 'zod';
import { idSchema } from '../../trees/document/index.ts';
import { jobEventSchema, OUTCOMES, readingSchema } from '../../trees/chart/index.ts';
import { draftEntrySchema, type DraftEntry } from '../../trees/edit/index.ts';
import { instantSchema, recordIdSchema } from './records.ts';
import { isShallow } from './shallow.ts';

/** Characters of a tree document, as the reader takes them at most. */
const MOST_TEXT = 5 * 1024 * 1024;
/** Entries that may be recorded at once. */
const MOST_ENTRIES = 200;

/** As {@link DraftEntry} has it: read-only, and an optional field is there or not. */
const entrySchema = draftEntrySchema as z.ZodType<DraftEntry, DraftEntry>;

const newEntryListSchema = z
  .unknown()
  .refine(isShallow, 'JSON, neither nested deeper nor larger than what is edited in a tree document')
  .pipe(z.array(entrySchema).min(1).max(MOST_ENTRIES)) as unknown as z.ZodType<DraftEntry[], DraftEntry[]>;

/** A draft as a list shows it. */
export const draftSummarySchema = z.strictObject({
  draftId: recordIdSchema,
  treeId: idSchema,
  /** The tree's title as the draft has it now. */
  title: z.string(),
  /** The published revision that it stands on, after merges; null for a tree not yet published. */
  base: recordIdSchema.nullable(),
  /** The tree's current revision now. */
  current: recordIdSchema.nullable(),
  /** Who began it. */
  technicianId: recordIdSchema,
  technician: z.string(),
  startedAt: instantSchema,
  lastAt: instantSchema,
  entries: z.int().min(0),
  /** It began as a file that was taken in over the revision it stands on: it may differ with no entry. */
  fromFile: z.boolean(),
});

export const pictureMarkSchema = z.strictObject({ file: z.string(), checksum: z.string() });

/** A draft in full: the text it began as, all its entries, and the pictures it can show. */
export const draftSchema = z.strictObject({
  draft: draftSummarySchema,
  baseText: z.string(),
  entries: z.array(entrySchema),
  pictures: z.array(pictureMarkSchema),
});

/** Where a new draft begins: on a revision, or as the text of a tree that the shop does not have. */
export const draftFromSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('revision'), revisionId: recordIdSchema }),
  z.strictObject({ kind: z.literal('new'), text: z.string().max(MOST_TEXT) }),
]);

export const newEntriesSchema = z.strictObject({
  draftId: recordIdSchema,
  /** The number of entries that the draft has before these. */
  seq: z.int().min(0),
  technicianId: recordIdSchema,
  entries: newEntryListSchema,
});

/** What a revision is published for. */
export const noteSchema = z
  .string()
  .trim()
  .min(1)
  .max(2000)
  .refine((note) => note.isWellFormed() && !note.includes('\0'), 'plain text');

export const revisionSummarySchema = z.strictObject({
  revisionId: recordIdSchema,
  treeId: idSchema,
  source: z.enum(['library', 'import', 'published']),
  note: z.string(),
  /** Who published it; null for one of the library. */
  technician: z.string().nullable(),
  addedAt: instantSchema,
  checksum: z.string(),
  current: z.boolean(),
  /** Jobs that are open on it now. */
  openJobs: z.int().min(0),
});

export const passphraseSchema = z.string().min(8).max(200);

/** A reading of a closed job with a confirmed finding, as it was taken and sorted then. */
export const pastReadingSchema = z.strictObject({
  value: readingSchema.shape.value,
  /** What its ratio bands were taken against; null where they are no ratios. */
  reference: z.number().nullable(),
  accuracy: readingSchema.shape.accuracy,
  result: idSchema,
  finding: idSchema,
  /** It was taken before any remedy was done. */
  era0: z.boolean(),
  closedAt: instantSchema,
});

/** A closed job with everything that was recorded of it. */
export const pastJobSchema = z.strictObject({
  jobId: recordIdSchema,
  serial: z.string(),
  reference: z.string(),
  symptom: idSchema,
  openedAt: instantSchema,
  closedAt: instantSchema,
  outcome: z.enum(OUTCOMES),
  finding: idSchema.nullable(),
  revisionId: recordIdSchema,
  events: z.array(jobEventSchema),
});

export type DraftSummary = z.output<typeof draftSummarySchema>;
export type DraftInFull = z.output<typeof draftSchema>;
export type DraftFrom = z.output<typeof draftFromSchema>;
export type RevisionSummary = z.output<typeof revisionSummarySchema>;
export type PastReading = z.output<typeof pastReadingSchema>;
export type PastJob = z.output<typeof pastJobSchema>;
