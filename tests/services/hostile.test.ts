import { ORPCError } from '@orpc/server';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAccuracy } from '../../trees/belief/index.ts';
import { OUTCOMES, type JobEvent } from '../../trees/chart/index.ts';
import { contract } from '../../main/contract/index.ts';
import { append, startJob } from '../../main/services/index.ts';
import { createWalks } from '../../main/services/walks.ts';
import {
  bytesOf,
  closedSpeakerJob,
  openShop,
  recordsOf,
  seededShop,
  startSmallJob,
} from '../support/temp-shop.ts';
import { smallTree } from '../support/trees.ts';

type Ask = (input: unknown) => Promise<unknown>;

const NAMES = Object.entries(contract).flatMap(([area, procedures]) =>
  Object.keys(procedures).map((name) => [area, name] as const),
);

const word = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 90 }),
  fc.constantFrom(
    'no-sound',
    'tone',
    'silent',
    'constructor',
    '__proto__',
    'power',
    'on',
    "'; DROP TABLE job; --",
    '\ud800',
  ),
);
const number = fc.oneof(fc.double(), fc.integer(), fc.constantFrom(-0, 2 ** 53, Infinity, NaN));

/** Inputs of the right shape as often as not: the procedures' own fields with hostile values. */
function hostile(ids: readonly string[]): fc.Arbitrary<unknown> {
  const id = fc.oneof(fc.constantFrom(...ids), word);
  const accuracy = fc.oneof(
    fc.record({ percent: number, constant: number }),
    fc.constant({ percent: 1, constant: 0.3 }),
  );
  const reading = fc.record(
    { value: fc.oneof(number, fc.constant('OL')), typed: word, accuracy, instrument: id },
    { requiredKeys: [] },
  );
  const kind = fc.constantFrom(
    'answer',
    'correct',
    'settle',
    'skip',
    'turn-to',
    'turn-back',
    'change',
    'start-remedy',
    'remedy-done',
    'give-up-remedy',
    'close',
    'take-back',
  );
  const named = fc.oneof(
    word,
    fc.constantFrom('supply-resistance', 'clear', 'shell', 'open', 'speaker-open', 'unlisted', 'declined'),
  );
  const event = fc.record(
    {
      kind,
      test: named,
      result: fc.oneof(named, fc.constant(null)),
      reading,
      axis: named,
      to: named,
      finding: named,
      reason: word,
      as: named,
      outcome: named,
      note: word,
      what: word,
    },
    { requiredKeys: ['kind'] },
  );
  const fields = fc.record(
    {
      jobId: id,
      revisionId: id,
      technicianId: id,
      id,
      treeId: fc.oneof(word, fc.constant('small')),
      seq: fc.oneof(number, fc.constant(0)),
      event: fc.oneof(event, fc.anything()),
      symptom: named,
      board: word,
      serial: word,
      reference: word,
      status: fc.constantFrom('open', 'closed', 'lost'),
      search: word,
      before: fc.oneof(word, fc.constant(null)),
      limit: number,
      family: word,
      file: word,
      name: word,
      measures: named,
      percent: number,
      constant: number,
    },
    { requiredKeys: [] },
  );
  return fc.oneof(fields, fc.anything());
}

/** The fields that a procedure knows, so that unknown ones are not all that is ever refused. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  'jobs.start': ['revisionId', 'symptom', 'board', 'serial', 'reference', 'technicianId'],
  'jobs.append': ['jobId', 'seq', 'technicianId', 'event'],
  'jobs.get': ['jobId'],
  'jobs.list': ['status', 'search', 'before', 'limit'],
  'jobs.ofUnit': ['family', 'serial'],
  'trees.revision': ['revisionId'],
  'trees.picture': ['revisionId', 'file'],
  'history.of': ['treeId'],
  'backups.restore': ['file'],
  'shop.addTechnician': ['name'],
  'shop.retireTechnician': ['id'],
  'shop.addInstrument': ['name', 'measures', 'percent', 'constant'],
  'shop.retireInstrument': ['id'],
};

function narrowed(input: unknown, known: readonly string[] | undefined): unknown {
  if (known === undefined || typeof input !== 'object' || input === null) return input;
  return Object.fromEntries(Object.entries(input).filter(([field]) => known.includes(field)));
}

describe('hostile input', () => {
  it.each(NAMES)(
    'to %s.%s gets an answer or a typed refusal, never an inner error, and the records stay sound',
    { timeout: 120_000 },
    async (area, name) => {
      const shop = await openShop();
      const { jobId, revisionId, technicianId } = await closedSpeakerJob(shop);
      const open = await startSmallJob(shop, 'no-sound');
      const procedures = Reflect.get(shop.client, area) as Readonly<Record<string, Ask>>;
      const ask = procedures[name];
      if (ask === undefined) throw new Error(`no procedure ${area}.${name}`);
      const inputs = fc.tuple(hostile([jobId, open.jobId, revisionId, technicianId]), fc.boolean());
      await fc.assert(
        fc.asyncProperty(inputs, async ([drawn, narrow]) => {
          const input = narrow ? narrowed(drawn, FIELDS[`${area}.${name}`]) : drawn;
          const refusal = await ask(input).then(
            () => null,
            (error: unknown) => error,
          );
          if (refusal !== null && !(refusal instanceof ORPCError)) throw refusal;
          expect(refusal?.code).not.toBe('INTERNAL_SERVER_ERROR');
        }),
        { numRuns: name === 'make' ? 5 : 150 },
      );
      expect(recordsOf(shop).rebuild()).toMatchObject({ differed: [], halted: [] });
    },
  );
});

/** Events of the right shape about things that the small tree has, in no order that makes sense. */
const shaped: fc.Arbitrary<JobEvent> = (() => {
  const tree = smallTree();
  const test = fc.constantFrom(...Object.keys(tree.tests));
  const result = fc.constantFrom('clear', 'short', 'good', 'low', 'drop', 'whole', 'none', 'heard', 'silent');
  const value = fc.oneof(
    fc.constantFrom(0, 1200, 5, 4.9, -1),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.constant('OL' as const),
  );
  const instrument = fc.constantFrom('ohms', 'dc-volts', 'eye');
  const reading = fc
    .tuple(value, instrument)
    .map(([value, of]) => ({ value, typed: '', accuracy: defaultAccuracy(of as 'ohms') }));
  const given = fc.record({ test, result, reading }, { requiredKeys: ['test', 'result'] });
  const axisTo = fc.constantFrom(['power', 'on'], ['power', 'off'], ['shell', 'open'], ['shell', 'closed']);
  const finding = fc.constantFrom(...Object.keys(tree.findings), 'unlisted');
  const because = fc.string({ minLength: 1, maxLength: 20 });
  return fc.oneof(
    { weight: 3, arbitrary: given.map((g) => ({ kind: 'answer' as const, ...g })) },
    { weight: 3, arbitrary: axisTo.map(([axis = '', to = '']) => ({ kind: 'change' as const, axis, to })) },
    { weight: 1, arbitrary: given.map((g) => ({ kind: 'correct' as const, ...g })) },
    {
      weight: 1,
      arbitrary: fc.record({ test, as: result }).map((s) => ({ kind: 'skip' as const, reason: 'r', ...s })),
    },
    { weight: 1, arbitrary: test.map((id) => ({ kind: 'turn-to' as const, test: id })) },
    { weight: 1, arbitrary: fc.constant({ kind: 'turn-back' as const }) },
    { weight: 1, arbitrary: fc.option(result).map((r) => ({ kind: 'settle' as const, result: r })) },
    {
      weight: 2,
      arbitrary: fc.record({ finding, what: because }).map((f) => ({ kind: 'start-remedy' as const, ...f })),
    },
    { weight: 2, arbitrary: because.map((note) => ({ kind: 'remedy-done' as const, note })) },
    {
      weight: 1,
      arbitrary: fc.constantFrom(...OUTCOMES).map((outcome) => ({ kind: 'close' as const, outcome })),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'take-back' as const }) },
  );
})();

describe('events of the right shape in any order', () => {
  it(
    'are recorded or refused one by one, and a replay of those recorded gives the same job',
    { timeout: 120_000 },
    async () => {
      let recorded = 0;
      let refused = 0;
      await fc.assert(
        fc.asyncProperty(fc.array(shaped, { minLength: 20, maxLength: 80 }), async (events) => {
          const { records, close } = seededShop();
          try {
            const tree = smallTree();
            const { revisionId } = records.addRevision({
              bytes: bytesOf(tree),
              tree,
              source: 'import',
              note: '',
              pictures: [],
            });
            const technicianId = records.technicians.add('Ada')?.id ?? '';
            const ticket = {
              revisionId,
              symptom: 'no-sound',
              board: '',
              serial: 'S',
              reference: '',
              technicianId,
            };
            const started = startJob(records, ticket, false);
            if (!started.ok) throw new Error(started.trouble.message);
            const { jobId } = started.value;
            const walks = createWalks();
            const taken: JobEvent[] = [];
            records.together(() => {
              for (const event of events) {
                const appended = append(records, walks, { jobId, seq: taken.length, technicianId, event });
                if (appended.ok) taken.push(event);
                else expect(appended.trouble.code).toBe('EVENT_REFUSED');
              }
            });
            recorded += taken.length;
            refused += events.length - taken.length;
            expect(records.events.of(jobId).map(({ event }) => event)).toEqual(taken);
            expect(records.rebuild()).toMatchObject({ differed: [], halted: [] });
          } finally {
            await close();
          }
        }),
        { numRuns: 60 },
      );
      expect(Math.min(recorded, refused)).toBeGreaterThan(300);
    },
  );
});
