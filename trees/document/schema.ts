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

export const idSchema = z.string().max(80).regex(ID_PATTERN).meta({ id: 'id' });
const goSchema = z.string().max(200).regex(GO_PATTERN).meta({
  id: 'go',
  description: 'Where to go on: a step’s id of the same path, finding:ID, symptom:ID or symptom:ID/STEP.',
});
const textSchema = z.string().min(1).max(8000).meta({ id: 'text', description: 'Plain text.' });
const minutesSchema = z.number().min(0).max(100_000).describe('Minutes, decimal.');
const weightSchema = z.number().min(0).max(1e12).describe('What the author expects, in units.');
const cautionsSchema = z
  .array(textSchema)
  .default([])
  .describe('What can hurt a person or the unit; shown before the act.');

/** Entries by id, without a prototype: an id such as `constructor` then finds its own entry or nothing. */
function byId<Value extends z.ZodType>(value: Value) {
  return z.record(idSchema, value).overwrite((entries) => Object.assign(Object.create(null), entries));
}

const needsSchema = byId(idSchema)
  .prefault({})
  .describe('Bench state needed: the state’s id by the axis’ id.');

const bandSchema = z
  .strictObject({
    from: z.number().optional().describe('Lowest reading in the band; absent: open downwards.'),
    to: z.number().optional().describe('The band ends just below this reading; absent: open upwards.'),
    of: idSchema.optional().describe('Test whose earlier reading the limits are ratios to.'),
  })
  .describe(
    'The readings that make this result: from <= reading < to. A test’s bands cover the whole line once.',
  );

const resultSchema = z.strictObject({ title: textSchema, band: bandSchema.optional() });

const pictureSchema = z.strictObject({
  file: z
    .string()
    .max(120)
    .regex(PICTURE_PATTERN)
    .describe('Name of a picture file that goes with the tree.'),
  points: z
    .array(z.strictObject({ x: z.number().min(0).max(1), y: z.number().min(0).max(1), label: textSchema }))
    .describe('Where to probe: fractions of the picture’s width (from the left) and height (from the top).'),
});

const testSchema = z
  .strictObject({
    title: textSchema,
    ask: textSchema.describe('What to do, where to probe, what to expect.'),
    instrument: z.enum(INSTRUMENTS),
    needs: needsSchema,
    minutes: minutesSchema,
    cautions: cautionsSchema,
    reliability: z
      .number()
      .gt(0)
      .max(1)
      .optional()
      .describe('Share of the times that the result is the right one.'),
    picture: pictureSchema.optional(),
    reading: z
      .strictObject({ unit: z.enum(READING_UNITS) })
      .optional()
      .describe('For a measured test; absent where the result is chosen.'),
    results: byId(resultSchema).describe('At least two; the first is what a sound unit gives.'),
  })
  .meta({ id: 'test' });

const changeSchema = z
  .strictObject({
    from: idSchema,
    to: idSchema,
    minutes: minutesSchema,
    say: textSchema.describe('What to do.'),
    cautions: cautionsSchema,
  })
  .meta({ id: 'change' });

const axisSchema = z
  .strictObject({
    title: textSchema,
    start: idSchema.describe('The state a unit comes to the bench in.'),
    states: byId(z.strictObject({ title: textSchema })),
    changes: z.array(changeSchema).describe('Changeovers: the ways from state to state.'),
  })
  .meta({ id: 'axis' });

const interlockSchema = z
  .strictObject({
    change: byId(idSchema).describe('The barred changeovers: those into this state, by axis.'),
    until: byId(z.array(idSchema).min(1)).describe(
      'Tests that open it, each with the results that are allowed.',
    ),
    because: textSchema,
  })
  .meta({ id: 'interlock' });

const remedySchema = z
  .strictObject({
    steps: z.array(textSchema).min(1),
    needs: needsSchema,
    minutes: minutesSchema,
    parts: z.array(z.strictObject({ name: textSchema, price: z.number().min(0).max(1e9) })).default([]),
    disturbs: z
      .array(idSchema)
      .default([])
      .describe('Tests whose results are no longer to be trusted afterwards.'),
    cautions: cautionsSchema,
  })
  .meta({ id: 'remedy' });

const expectedSchema = z.union([idSchema, byId(z.number().min(0).max(1))]);

const findingSchema = z
  .strictObject({
    title: textSchema,
    because: textSchema,
    remedy: remedySchema,
    prove: z
      .array(idSchema)
      .default([])
      .describe('Tests that must give their first result after the remedy.'),
    expects: byId(expectedSchema)
      .prefault({})
      .describe('What it makes tests give: by test a result’s id, or shares by result that sum to 1.'),
    otherwise: goSchema.optional().describe('Where to go on when the remedy does not mend it.'),
  })
  .meta({ id: 'finding' });

const branchSchema = z.strictObject({ go: goSchema, weight: weightSchema.default(1) });

const stepSchema = z
  .strictObject({
    test: idSchema,
    then: byId(branchSchema).describe('One branch for every result of the test.'),
  })
  .meta({ id: 'step' });

const symptomSchema = z
  .strictObject({
    title: textSchema,
    first: idSchema
      .optional()
      .describe('The step the path starts at; absent: the order is left to the planner.'),
    weights: byId(weightSchema)
      .prefault({})
      .describe('By finding; absent or empty: they follow from the branches’ weights.'),
    steps: byId(stepSchema).prefault({}),
  })
  .meta({ id: 'symptom', dependentRequired: { first: ['steps'] } });

const defaultsSchema = z
  .strictObject({
    strength: z
      .number()
      .gt(0)
      .max(1e12)
      .default(10)
      .describe('How many jobs the authors’ weights count for.'),
    reliability: z.number().gt(0).max(1).default(0.97).describe('Of tests that do not state their own.'),
    unlisted: z.number().min(0).lt(1).default(0.02).describe('Chance of a cause that is not in this tree.'),
    fixRate: z.number().gt(0).max(1).default(0.95).describe('Chance that the right remedy mends the unit.'),
    escalate: minutesSchema.default(60).describe('Minutes that passing the unit on costs.'),
    settled: z
      .number()
      .gt(0)
      .max(1)
      .default(0.95)
      .describe('Probability at which a finding is taken as found.'),
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
  unit: z
    .strictObject({ family: textSchema, boards: z.array(textSchema).default([]) })
    .describe('The units that the tree is for.'),
  summary: z.string().max(8000).default(''),
  cautions: cautionsSchema,
  defaults: defaultsSchema,
  bench: byId(axisSchema)
    .prefault({})
    .describe('How a unit can stand on the bench, one axis each for power, shell …'),
  interlocks: z.array(interlockSchema).default([]),
  tests: byId(testSchema),
  findings: byId(findingSchema),
  symptoms: byId(symptomSchema),
});

/** The schemas of a tree's parts, each of which can be parsed by itself. */
export const PART_SCHEMAS = {
  title: textSchema,
  unit: treeSchema.shape.unit,
  summary: treeSchema.shape.summary,
  cautions: cautionsSchema,
  defaults: defaultsSchema,
  axis: axisSchema,
  interlock: interlockSchema,
  test: testSchema,
  finding: findingSchema,
  symptom: symptomSchema.omit({ steps: true }),
  step: stepSchema,
} as const;
