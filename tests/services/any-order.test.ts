import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAccuracy } from '../../trees/belief/index.ts';
import { OUTCOMES, type JobEvent } from '../../trees/chart/index.ts';
import { append, startJob } from '../../main/services/index.ts';
import { createWalks } from '../../main/services/walks.ts';
import { bytesOf, seededShop } from '../support/temp-shop.ts';
import { smallTree } from '../support/trees.ts';

const RUNS = 60;

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
      arbitrary: fc
        .record({ test, as: result }, { requiredKeys: ['test'] })
        .map((s) => ({ kind: 'skip' as const, reason: 'r', ...s })),
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
        { numRuns: RUNS },
      );
      // So that neither half of the property is empty; how many there are hangs on how early the draws close their jobs.
      expect(Math.min(recorded, refused)).toBeGreaterThan(RUNS);
    },
  );
});
