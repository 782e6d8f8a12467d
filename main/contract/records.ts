import { z } from 'zod';
import { idSchema, INSTRUMENTS } from '../../trees/document/index.ts';
import { jobEventSchema, OUTCOMES } from '../../trees/chart/index.ts';

/** UUIDv7, so that two shops' records can be merged. */
export const recordIdSchema = z.uuidv7();
/** UTC, ISO 8601 with milliseconds and Z. */
export const instantSchema = z.iso.datetime();

const textSchema = (most: number) =>
  z
    .string()
    .trim()
    .max(most)
    .regex(/^[^\p{Control}\p{Surrogate}]*$/u, 'one line of text, with no control characters');
const lineSchema = (most: number) => textSchema(most).min(1);

export const technicianSchema = z.strictObject({
  id: recordIdSchema,
  name: lineSchema(80),
  retired: z.boolean(),
});

/** A measuring instrument of the shop: what it measures, and its accuracy ±(percent % of reading + constant in the SI unit). */
export const instrumentSchema = z.strictObject({
  id: recordIdSchema,
  name: lineSchema(80),
  measures: z.enum(INSTRUMENTS),
  percent: z.number().min(0).max(100),
  constant: z.number().min(0),
  retired: z.boolean(),
});

/**
 * What an hour of work costs, in the currency that parts' prices are in; null where parts' prices are not to count as
 * minutes. Not below a hundredth: a part's minutes are its price by 60 over the rate, and stay a number.
 */
export const hourlyRateSchema = z
  .number({ error: 'An hourly rate is a number, such as 45.' })
  .min(0.01, 'An hourly rate is at least 0.01.')
  .max(1_000_000, 'An hourly rate is at most 1000000.')
  .nullable();

export const treeSummarySchema = z.strictObject({
  treeId: idSchema,
  revisionId: recordIdSchema,
  title: z.string(),
  summary: z.string(),
  family: z.string(),
  boards: z.array(z.string()),
  symptoms: z.array(z.strictObject({ id: idSchema, title: z.string() })),
  addedAt: instantSchema,
});

/** One revision of a tree: the exact text it was published with, and its SHA-256. */
export const treeRevisionSchema = z.strictObject({
  revisionId: recordIdSchema,
  treeId: idSchema,
  text: z.string(),
  checksum: z.string(),
  addedAt: instantSchema,
});

export const pictureSchema = z.strictObject({
  file: z.string(),
  media: z.enum(['image/svg+xml', 'image/png', 'image/jpeg']),
  base64: z.string(),
});

/** What the shop writes on the job's ticket. A customer appears only as `reference`, the shop's own job reference. */
export const newJobSchema = z.strictObject({
  revisionId: recordIdSchema,
  symptom: idSchema,
  board: textSchema(40),
  serial: lineSchema(60),
  reference: textSchema(60),
  technicianId: recordIdSchema,
});

export const jobSummarySchema = z.strictObject({
  jobId: recordIdSchema,
  treeId: idSchema,
  revisionId: recordIdSchema,
  family: z.string(),
  board: z.string(),
  serial: z.string(),
  reference: z.string(),
  symptom: idSchema,
  symptomTitle: z.string(),
  technicianId: recordIdSchema,
  technician: z.string(),
  openedAt: instantSchema,
  lastAt: instantSchema,
  /** Events recorded so far: the next one's sequence number. */
  events: z.int().min(0),
  outcome: z.enum(OUTCOMES).nullable(),
  finding: idSchema.nullable(),
  findingTitle: z.string().nullable(),
  /** Made by the demo, not by a technician. */
  invented: z.boolean(),
});

export const storedEventSchema = z.strictObject({
  id: recordIdSchema,
  seq: z.int().min(0),
  at: instantSchema,
  technicianId: recordIdSchema,
  event: jobEventSchema,
});

export const jobSchema = z.strictObject({ job: jobSummarySchema, events: z.array(storedEventSchema) });

const countSchema = z.record(z.string(), z.number());
export const historySchema = z.strictObject({
  findings: z.record(z.string(), countSchema),
  results: z.record(z.string(), z.record(z.string(), countSchema)),
  remedies: z.record(z.string(), z.strictObject({ tried: z.number(), mended: z.number() })),
});

export const backupSchema = z.strictObject({
  file: z.string(),
  madeAt: instantSchema,
  bytes: z.number(),
  jobs: z.number(),
});

export type Technician = z.output<typeof technicianSchema>;
export type ShopInstrument = z.output<typeof instrumentSchema>;
export type TreeSummary = z.output<typeof treeSummarySchema>;
export type TreeRevision = z.output<typeof treeRevisionSchema>;
export type TreePicture = z.output<typeof pictureSchema>;
export type NewJob = z.output<typeof newJobSchema>;
export type JobSummary = z.output<typeof jobSummarySchema>;
export type StoredEvent = z.output<typeof storedEventSchema>;
export type Job = z.output<typeof jobSchema>;
export type Backup = z.output<typeof backupSchema>;
