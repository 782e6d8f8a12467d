import { z } from 'zod';
import { idSchema } from '../../trees/document/index.ts';
import { jobEventSchema } from '../../trees/chart/index.ts';
import { drafts, lock, past, revisions } from './editing.ts';
import { exchange } from './exchange.ts';
import { base } from './failures.ts';
import { review } from './review.ts';
import {
  backupSchema,
  historySchema,
  hourlyRateSchema,
  instrumentSchema,
  jobSchema,
  jobSummarySchema,
  newJobSchema,
  pictureSchema,
  recordIdSchema,
  storedEventSchema,
  technicianSchema,
  treeRevisionSchema,
  treeSummarySchema,
} from './records.ts';

export const shopStateSchema = z.discriminatedUnion('state', [
  z.strictObject({
    state: z.literal('ready'),
    database: z.string(),
    /** Some of the jobs were made by the demo. */
    invented: z.boolean(),
    host: z.enum(['desktop', 'loopback']),
    technicians: z.array(technicianSchema),
    instruments: z.array(instrumentSchema),
    hourlyRate: hourlyRateSchema,
    openJobs: z.int(),
    closedJobs: z.int(),
    /** Result of the integrity check that runs beside the work after opening. */
    integrity: z.enum(['checking', 'sound', 'damaged']),
    backups: z.array(backupSchema),
    /** What the technician should be told that concerns no single question: a tree of the library left out, a backup not made. */
    notices: z.array(z.string()).optional(),
  }),
  z.strictObject({
    state: z.literal('unavailable'),
    database: z.string(),
    code: z.enum([
      'NEWER_DATABASE',
      'DAMAGED',
      'READ_ONLY',
      'DISK_FULL',
      'NOT_A_DATABASE',
      'IN_USE',
      'UNREADABLE',
    ]),
    message: z.string(),
    help: z.string(),
    backups: z.array(backupSchema),
  }),
]);

export type ShopState = z.output<typeof shopStateSchema>;

/** All that the app may ask of the main process. Nothing else crosses. */
export const contract = {
  shop: {
    open: base.output(shopStateSchema),
    addTechnician: base.input(technicianSchema.pick({ name: true })).output(technicianSchema),
    retireTechnician: base.input(z.strictObject({ id: recordIdSchema })).output(technicianSchema),
    addInstrument: base.input(instrumentSchema.omit({ id: true, retired: true })).output(instrumentSchema),
    retireInstrument: base.input(z.strictObject({ id: recordIdSchema })).output(instrumentSchema),
    /** Gives back the rate that holds now. */
    setHourlyRate: base
      .input(z.strictObject({ rate: hourlyRateSchema }))
      .output(z.strictObject({ rate: hourlyRateSchema })),
  },
  trees: {
    /** The current revision of each tree. */
    list: base.output(z.array(treeSummarySchema)),
    revision: base.input(z.strictObject({ revisionId: recordIdSchema })).output(treeRevisionSchema),
    picture: base
      .input(z.strictObject({ revisionId: recordIdSchema, file: z.string() }))
      .output(pictureSchema),
  },
  history: {
    of: base.input(z.strictObject({ treeId: idSchema })).output(historySchema),
    ...past,
  },
  drafts,
  exchange,
  revisions,
  lock,
  review,
  jobs: {
    /** Newest first. `search` matches serial, reference, family, board, technician, symptom and finding titles. */
    list: base
      .input(
        z.strictObject({
          status: z.enum(['open', 'closed']),
          search: z.string().max(200).default(''),
          before: z.string().nullable().default(null),
          limit: z.int().min(1).max(200).default(50),
        }),
      )
      .output(z.strictObject({ jobs: z.array(jobSummarySchema), next: z.string().nullable() })),
    /** Earlier and open visits of a unit, newest first: is this one a comeback? */
    ofUnit: base
      .input(z.strictObject({ family: z.string(), serial: z.string().max(60) }))
      .output(z.array(jobSummarySchema)),
    start: base.input(newJobSchema).output(jobSchema),
    get: base.input(z.strictObject({ jobId: recordIdSchema })).output(jobSchema),
    /** Durable when it answers. `seq` is the number the app expects the event to get. */
    append: base
      .input(
        z.strictObject({
          jobId: recordIdSchema,
          seq: z.int().min(0),
          technicianId: recordIdSchema,
          event: jobEventSchema,
        }),
      )
      .output(storedEventSchema),
  },
  backups: {
    make: base.output(backupSchema),
    /** Puts a backup in the database's place; the present file is kept beside it under another name. */
    restore: base.input(z.strictObject({ file: z.string() })).output(shopStateSchema),
  },
};
