import { z } from 'zod';
import { idSchema } from '../document/index.ts';

const noteSchema = z.string().max(4000);
const reasonSchema = z.string().trim().min(1).max(4000);
const advisedSchema = z.literal(true).optional();

/**
 * A raw reading as it was taken: the value in the test's SI unit (or `OL`, beyond the meter's range), what was typed,
 * and the accuracy of the instrument it was taken with: ±(percent % of the value + constant, in the same unit).
 */
export const readingSchema = z.strictObject({
  value: z.union([z.number(), z.literal('OL')]),
  typed: z.string().max(40),
  accuracy: z.strictObject({ percent: z.number().min(0).max(100), constant: z.number().min(0) }),
  instrument: z.string().max(64).optional(),
});

/** Outcomes of a job. `fixed` can be had only by a proof that was passed. */
export const OUTCOMES = [
  'fixed',
  'no-fault-found',
  'beyond-economic-repair',
  'declined',
  'passed-on',
] as const;

/**
 * Everything a technician can do in a job; a job is its list of these.
 *
 * - `answer`: a test was made and gave this result (with its reading where the test is measured). At a step, aside, for an
 *   interlock, or as a proof: the chart knows which. A second, different answer to a test that still stands is a contradiction.
 * - `correct`: the answer to this test was mis-keyed; the standing one is replaced and the course follows.
 * - `settle`: of two answers that contradict each other this one stands; `result: null` says neither does (it comes and goes).
 * - `skip`: this test is not made, for a reason. The course goes on as if it had given `as`, which is no evidence; without
 *   `as` nothing is assumed, and the course leaves the path until a step that has an answer lets it be met again.
 * - `turn-to` / `turn-back`: make a test out of order / return to the path without making it.
 * - `change`: a changeover was made.
 * - `start-remedy`: the technician takes this finding's remedy in hand (`unlisted`: a cause not in this tree, with `what`).
 *   `advised` says of this and of `turn-to` that it was taken from the planner's advice; the chart goes on as without.
 * - `remedy-done`, `give-up-remedy`: it is done and the proof begins / it was left undone.
 * - `close`: the job ends with an outcome.
 * - `take-back`: the last event that is not taken back yet never was.
 */
export const jobEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('answer'),
    test: idSchema,
    result: idSchema,
    reading: readingSchema.optional(),
  }),
  z.strictObject({
    kind: z.literal('correct'),
    test: idSchema,
    result: idSchema,
    reading: readingSchema.optional(),
  }),
  z.strictObject({ kind: z.literal('settle'), result: idSchema.nullable() }),
  z.strictObject({ kind: z.literal('skip'), test: idSchema, reason: reasonSchema, as: idSchema.optional() }),
  z.strictObject({ kind: z.literal('turn-to'), test: idSchema, advised: advisedSchema }),
  z.strictObject({ kind: z.literal('turn-back') }),
  z.strictObject({ kind: z.literal('change'), axis: idSchema, to: idSchema }),
  z.strictObject({
    kind: z.literal('start-remedy'),
    finding: idSchema,
    what: reasonSchema.optional(),
    advised: advisedSchema,
  }),
  z.strictObject({ kind: z.literal('remedy-done'), note: noteSchema.optional() }),
  z.strictObject({ kind: z.literal('give-up-remedy'), reason: reasonSchema }),
  z.strictObject({ kind: z.literal('close'), outcome: z.enum(OUTCOMES), note: noteSchema.optional() }),
  z.strictObject({ kind: z.literal('take-back') }),
]);

export type JobEvent = z.output<typeof jobEventSchema>;
export type JobEventKind = JobEvent['kind'];
export type Reading = z.output<typeof readingSchema>;
export type Outcome = (typeof OUTCOMES)[number];
