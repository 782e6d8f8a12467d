import { type } from '@orpc/contract';
import { z } from 'zod';
import { OUTCOMES } from '../../trees/chart/index.ts';
import { idSchema } from '../../trees/document/index.ts';
import { COMEBACK_WINDOW_DAYS, type Review } from '../../trees/review/index.ts';
import { base } from './failures.ts';
import { jobSummarySchema, recordIdSchema } from './records.ts';

/** A day, UTC. */
const daySchema = z.iso.date();
const monthSchema = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, 'a month, as 2026-01');

/** Which closed jobs a review is of; see `ReviewFilter`. Everything may be left out. */
export const reviewFilterSchema = z.strictObject({
  from: daySchema.nullable().default(null),
  to: daySchema.nullable().default(null),
  tree: idSchema.nullable().default(null),
  board: z.string().max(40).nullable().default(null),
  technician: recordIdSchema.nullable().default(null),
  window: z.int().min(1).max(730).default(COMEBACK_WINDOW_DAYS),
});

const tree = idSchema;
const judged = z.literal(true).optional();
const share = z.number().min(0).max(1);

/** The jobs behind a figure; see `Slice`. */
export const reviewSliceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('all') }),
  z.strictObject({ kind: z.literal('first-time-fixed') }),
  z.strictObject({ kind: z.literal('not-first-time-fixed') }),
  z.strictObject({ kind: z.literal('month'), month: monthSchema }),
  z.strictObject({ kind: z.literal('outcome'), outcome: z.enum(OUTCOMES) }),
  z.strictObject({ kind: z.literal('tree'), tree, judged }),
  z.strictObject({ kind: z.literal('symptom'), tree, symptom: idSchema, judged }),
  z.strictObject({ kind: z.literal('finding'), tree, finding: idSchema, judged }),
  z.strictObject({ kind: z.literal('board'), tree, board: z.string().max(40), judged }),
  z.strictObject({ kind: z.literal('technician'), technician: recordIdSchema, judged }),
  z.strictObject({ kind: z.literal('back'), within: z.int().min(0).max(36_500) }),
  z.strictObject({ kind: z.literal('finding-fixed'), tree, finding: idSchema }),
  z.strictObject({
    kind: z.literal('finding-back'),
    tree,
    finding: idSchema,
    within: z.int().min(0).max(36_500),
  }),
  z.strictObject({ kind: z.literal('tried'), tree, finding: idSchema }),
  z.strictObject({ kind: z.literal('tried-in-vain'), tree, finding: idSchema }),
  z.strictObject({ kind: z.literal('tried-instead'), tree, finding: idSchema, was: idSchema }),
  z.strictObject({ kind: z.literal('found'), tree, symptom: idSchema }),
  z.strictObject({ kind: z.literal('proven'), tree, symptom: idSchema }),
  z.strictObject({ kind: z.literal('judged'), technician: recordIdSchema, tree, symptom: idSchema }),
  z.strictObject({
    kind: z.literal('branch'),
    tree,
    symptom: idSchema,
    step: idSchema,
    result: idSchema,
  }),
  z.strictObject({ kind: z.literal('shown'), from: share, to: share }),
  z.strictObject({ kind: z.literal('advised'), taken: z.boolean() }),
]);

/** Titles for the ids in a review. Parts of a tree are named `TREE/ID`; what the tree no longer has is not there. */
export interface ReviewNames {
  readonly trees: Readonly<Record<string, string>>;
  readonly symptoms: Readonly<Record<string, string>>;
  readonly findings: Readonly<Record<string, string>>;
  readonly tests: Readonly<Record<string, string>>;
  /** `TREE/TEST/RESULT`. */
  readonly results: Readonly<Record<string, string>>;
  readonly technicians: Readonly<Record<string, string>>;
  /** The current revision of each tree, to open it in the editor. */
  readonly revisions: Readonly<Record<string, string>>;
}

/** What the filters can be set to, from all closed jobs. */
export interface ReviewChoices {
  readonly trees: readonly string[];
  readonly boards: readonly { readonly tree: string; readonly board: string }[];
  readonly technicians: readonly string[];
}

export interface ReviewPage {
  readonly review: Review;
  readonly names: ReviewNames;
  readonly choices: ReviewChoices;
  /** Some of the jobs were made by the demo. */
  readonly invented: boolean;
  /** Every closed job is counted. Not so for some minutes at most after the first start of the version that first keeps them. */
  readonly complete: boolean;
}

/**
 * A job behind a figure. `backOn` is the day after closing, the first being 1, on which its unit was back, if it was, and `backWith`
 * the job that it was back with; `failed` are the remedies that were proved and did not mend it.
 */
export const reviewJobSchema = jobSummarySchema.extend({
  backOn: z.int().min(1).nullable(),
  backWith: recordIdSchema.nullable(),
  failed: z.int().min(0),
});

/** What the shop's record says. Read only; made beside the work, on a thread of its own. */
export const review = {
  figures: base.input(reviewFilterSchema).output(type<ReviewPage>()),
  /** The closed jobs behind a figure, those opened last first. `before` is what an earlier page gave as `next`. */
  jobs: base
    .input(
      z.strictObject({
        filter: reviewFilterSchema,
        slice: reviewSliceSchema,
        before: z.string().nullable().default(null),
        limit: z.int().min(1).max(200).default(50),
      }),
    )
    .output(
      z.strictObject({
        jobs: z.array(reviewJobSchema),
        total: z.int().min(0),
        next: z.string().nullable(),
      }),
    ),
};

export type ReviewFilterInput = z.input<typeof reviewFilterSchema>;
export type ReviewJob = z.output<typeof reviewJobSchema>;
export type ReviewSlice = z.output<typeof reviewSliceSchema>;
