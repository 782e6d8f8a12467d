import { ORPCError } from '@orpc/server';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contract } from '../../main/contract/index.ts';
import { closedSpeakerJob, openShop, recordsOf, startSmallJob } from '../support/temp-shop.ts';

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
      rate: fc.oneof(number, fc.constant(null), fc.constant('45')),
      draftId: id,
      from: draftFrom(id),
      entries: fc.oneof(fc.array(draftEntry(id), { maxLength: 3 }), fc.anything()),
      note: word,
      onto: fc.oneof(id, fc.constant(null)),
      key: word,
      passphrase: fc.oneof(word, fc.constant(null)),
      former: word,
      test: named,
      to: fc.oneof(word, fc.constant('2026-01-31')),
      tree: named,
      technician: id,
      window: number,
      filter: reviewFilter(id),
      slice: fc.oneof(reviewSlice(id), fc.anything()),
    },
    { requiredKeys: [] },
  );
  return fc.oneof(fields, fc.anything());
}

const someId = fc.constantFrom('small', 'speaker-open', 'no-sound', 'tone', 'heard', 's1', 'constructor', '');

function reviewFilter(id: fc.Arbitrary<string>): fc.Arbitrary<unknown> {
  const day = fc.constantFrom('0000-01-01', '2026-01-05', '2026-02-30', '9999-12-31', null);
  const fields = { from: day, to: day, tree: someId, board: word, technician: id, window: number };
  return fc.oneof(fc.record(fields, { requiredKeys: [] }), fc.anything());
}

function reviewSlice(id: fc.Arbitrary<string>): fc.Arbitrary<unknown> {
  const tree = fc.constantFrom('small', 'other', 'constructor', '');
  return fc.oneof(
    fc.record({ kind: fc.constantFrom('all', 'first-time-fixed', 'not-first-time-fixed') }),
    fc.record({
      kind: fc.constant('month'),
      month: fc.constantFrom('0000-01', '2026-01', '9999-12', '2026-13'),
    }),
    fc.record({ kind: fc.constant('finding'), tree, finding: someId }),
    fc.record({ kind: fc.constant('technician'), technician: id }),
    fc.record({ kind: fc.constant('back'), within: number }),
    fc.record({ kind: fc.constant('branch'), tree, symptom: someId, step: someId, result: someId }),
    fc.record({ kind: fc.constant('shown'), from: number, to: number }),
  );
}

function draftFrom(id: fc.Arbitrary<string>): fc.Arbitrary<unknown> {
  const text = fc.oneof(
    word,
    fc.json(),
    fc.constantFrom('{"id":"constructor"}', '{"id":"new-one"}', `${'['.repeat(9000)}${']'.repeat(9000)}`),
  );
  const kind = fc.constantFrom('revision', 'new', 'old');
  return fc.oneof(fc.record({ kind, revisionId: id }), fc.record({ kind, text }), fc.anything());
}

/** Entries of the right shape as often as not, at places that are there as often as not. */
function draftEntry(id: fc.Arbitrary<string>): fc.Arbitrary<unknown> {
  const key = fc.oneof(
    fc.constantFrom('title', 'tests', 'tone', 'symptoms', '__proto__', 'constructor', 'cautions', 0, -1, 1e9),
    word,
  );
  const change = fc.record(
    {
      do: fc.constantFrom('set', 'insert', 'remove', 'move', 'copy'),
      path: fc.array(key, { maxLength: 3 }),
      at: fc.oneof(number, fc.constant(0)),
      value: fc.oneof(fc.jsonValue(), fc.anything()),
    },
    { requiredKeys: ['do', 'path'] },
  );
  const edit = fc.record({
    kind: fc.constant('edit'),
    what: word,
    changes: fc.array(change, { minLength: 1, maxLength: 3 }),
  });
  return fc.oneof(
    edit,
    fc.record({ kind: fc.constantFrom('undo', 'redo', 'rebase'), revisionId: id }),
    fc.anything(),
  );
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
  'shop.setHourlyRate': ['rate'],
  'drafts.start': ['technicianId', 'from'],
  'drafts.get': ['draftId'],
  'drafts.append': ['draftId', 'seq', 'technicianId', 'entries'],
  'drafts.discard': ['draftId', 'technicianId'],
  'drafts.picture': ['draftId', 'file'],
  'drafts.publish': ['draftId', 'seq', 'technicianId', 'note', 'onto', 'key'],
  'revisions.list': ['treeId'],
  'revisions.publishAgain': ['revisionId', 'technicianId', 'note', 'onto', 'key'],
  'lock.set': ['passphrase', 'former'],
  'lock.unlock': ['passphrase'],
  'review.figures': ['from', 'to', 'tree', 'board', 'technician', 'window'],
  'review.jobs': ['filter', 'slice', 'before', 'limit'],
  'history.readings': ['treeId', 'test', 'limit'],
  'history.jobs': ['treeId', 'limit'],
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
      const from = { kind: 'revision', revisionId } as const;
      const { draft } = await shop.client.drafts.start({ technicianId, from });
      const ids = [jobId, open.jobId, revisionId, technicianId, draft.draftId];
      const inputs = fc.tuple(hostile(ids), fc.boolean());
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
