import { z } from 'zod';

const ID = '[a-z][a-z0-9]*(?:-[a-z0-9]+)*';

/** The shape of an id: kebab-case, starting with a letter. History hangs on ids, so they never change meaning. */
export const ID_PATTERN = new RegExp(`^${ID}$`);

/** The form of a `go` or `otherwise`: STEP, finding:ID, symptom:ID or symptom:ID/STEP. */
export const GO_PATTERN = new RegExp(`^(?:${ID}|finding:${ID}|symptom:${ID}(?:/${ID})?)$`);

/** The form of a picture's file name. */
export const PICTURE_PATTERN = /^[a-z0-9][a-z0-9-]*\.(?:svg|png|jpg|jpeg)$/;

/** The finding that stands for "something not in this tree"; no tree may use it as an id of its own. */
export const UNLISTED = 'unlisted';

/** The instruments a test may be made with. The first six are measured and have an accuracy. */
export const INSTRUMENTS = [
  'dc-volts',
  'ohms',
  'continuity',
  'diode',
  'dc-amps',
  'scope',
  'eye',
  'ear',
  'hand',
] as const;

/** SI units a reading may have. */
export const READING_UNITS = ['V', 'A', 'ohm', 'Hz', 's', 'degC'] as const;

export const idSchema = z.string().max(80).regex(ID_PATTERN);
const goSchema = z.string().max(200).regex(GO_PATTERN);
const textSchema = z.string().min(1).max(8000);
const minutesSchema = z.number().min(0).max(100_000);
const weightSchema = z.number().min(0).max(1e12);
const cautionsSchema = z.array(textSchema).default([]);

/** Entries by id, without a prototype: an id such as `constructor` then finds its own entry or nothing. */
function byId<Value extends z.ZodType>(value: Value) {
  return z.record(idSchema, value).overwrite((entries) => Object.assign(Object.create(null), entries));
}

const needsSchema = byId(idSchema).prefault({});

const bandSchema = z.strictObject({
  from: z.number().optional(),
  to: z.number().optional(),
  of: idSchema.optional(),
});

const resultSchema = z.strictObject({ title: textSchema, band: bandSchema.optional() });

const pictureSchema = z.strictObject({
  file: z.string().max(120).regex(PICTURE_PATTERN),
  points: z
    .array(z.strictObject({ x: z.number().min(0).max(1), y: z.number().min(0).max(1), label: textSchema }))
    .default([]),
});

const testSchema = z.strictObject({
  title: textSchema,
  ask: textSchema,
  instrument: z.enum(INSTRUMENTS),
  needs: needsSchema,
  minutes: minutesSchema,
  cautions: cautionsSchema,
  reliability: z.number().gt(0).max(1).optional(),
  picture: pictureSchema.optional(),
  reading: z.strictObject({ unit: z.enum(READING_UNITS) }).optional(),
  results: byId(resultSchema),
});

const changeSchema = z.strictObject({
  from: idSchema,
  to: idSchema,
  minutes: minutesSchema,
  say: textSchema,
  cautions: cautionsSchema,
});

const axisSchema = z.strictObject({
  title: textSchema,
  start: idSchema,
  states: byId(z.strictObject({ title: textSchema })),
  changes: z.array(changeSchema).default([]),
});

const interlockSchema = z.strictObject({
  change: byId(idSchema),
  until: byId(z.array(idSchema).min(1)),
  because: textSchema,
});

const remedySchema = z.strictObject({
  steps: z.array(textSchema).min(1),
  needs: needsSchema,
  minutes: minutesSchema,
  parts: z.array(z.strictObject({ name: textSchema, price: z.number().min(0) })).default([]),
  disturbs: z.array(idSchema).default([]),
  cautions: cautionsSchema,
});

const findingSchema = z.strictObject({
  title: textSchema,
  because: textSchema,
  remedy: remedySchema,
  prove: z.array(idSchema).default([]),
  expects: byId(z.union([idSchema, byId(z.number().min(0).max(1))])).prefault({}),
  otherwise: goSchema.optional(),
});

const branchSchema = z.strictObject({ go: goSchema, weight: weightSchema.default(1) });

const stepSchema = z.strictObject({ test: idSchema, then: byId(branchSchema) });

const symptomSchema = z.strictObject({
  title: textSchema,
  first: idSchema.optional(),
  weights: byId(weightSchema).optional(),
  steps: byId(stepSchema).prefault({}),
});

const defaultsSchema = z
  .strictObject({
    strength: z.number().gt(0).default(10),
    reliability: z.number().gt(0).max(1).default(0.97),
    unlisted: z.number().min(0).lt(1).default(0.02),
    fixRate: z.number().gt(0).max(1).default(0.95),
    escalate: minutesSchema.default(60),
    settled: z.number().gt(0).max(1).default(0.95),
  })
  .prefault({});

/**
 * The tree document, format `ohmward-tree/1`: everything the shop knows about finding faults in one family of units.
 * Readings are in SI base units, minutes are decimal. Shape only; what shape cannot say is the checker's.
 */
export const treeSchema = z.strictObject({
  format: z.literal('ohmward-tree/1'),
  id: idSchema,
  title: textSchema,
  unit: z.strictObject({ family: textSchema, boards: z.array(textSchema).default([]) }),
  summary: z.string().max(8000).default(''),
  cautions: cautionsSchema,
  defaults: defaultsSchema,
  bench: byId(axisSchema).prefault({}),
  interlocks: z.array(interlockSchema).default([]),
  tests: byId(testSchema),
  findings: byId(findingSchema),
  symptoms: byId(symptomSchema),
});
