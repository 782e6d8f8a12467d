import { z } from 'zod';
import { idSchema } from '../../document/index.ts';
import type { Json, JsonObject } from '../json.ts';

const json: z.ZodType<Json> = z.json();
const part: z.ZodType<JsonObject> = z.record(z.string(), json);
const parts: z.ZodType<Readonly<Record<string, JsonObject>>> = z.record(idSchema, part);

/** What is copied from a tree and can be put into another, as text on the clipboard: format `ohmward-clip/1`. */
export const clipSchema = z.strictObject({
  format: z.literal('ohmward-clip/1'),
  /** What was asked for; the rest is what that cannot do without. */
  asked: z.strictObject({
    tests: z.array(idSchema),
    findings: z.array(idSchema),
    symptoms: z.array(idSchema),
  }),
  tests: parts,
  findings: parts,
  symptoms: parts,
  /** Steps asked for, each with the symptom of its path. */
  steps: z.array(z.strictObject({ symptom: idSchema, id: idSchema, step: part })),
  bench: parts,
  interlocks: z.array(part),
  /** Names of the picture files that the tests show. */
  pictures: z.array(z.string().max(120)),
});

export type Clip = z.output<typeof clipSchema>;
