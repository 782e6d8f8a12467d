import { describe, expect, it } from 'vitest';
import { resultOf } from '../../trees/document/index.ts';
import { parseReading } from '../../trees/belief/index.ts';
import { openFactReader, openRecords, type Records } from '../../main/records/index.ts';
import { startIntegrityCheck } from '../../main/records/integrity.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { addLibrary, makeDemo } from '../../main/services/index.ts';
import { workRandomJob } from '../support/random-job.ts';
import { factsIn } from '../support/recorded-facts.ts';
import { seededShop } from '../support/temp-shop.ts';

const UNTIL = Date.UTC(2026, 0, 31);

async function demo(jobs: number, seed: number, look: (records: Records) => unknown): Promise<unknown> {
  const { records, close } = seededShop();
  addLibrary(records);
  expect(makeDemo({ records, jobs, seed, until: UNTIL })).toMatchObject({ ok: true, jobs });
  const seen = look(records);
  await close();
  return seen;
}

function jobsOf(records: Records) {
  const page = { search: '', before: null, limit: 200 };
  return [
    ...records.jobs.list({ ...page, status: 'open' }).jobs,
    ...records.jobs.list({ ...page, status: 'closed' }).jobs,
  ];
}

const everything = (records: Records) =>
  jobsOf(records).map((job) => ({ job, events: records.events.of(job.jobId) }));

describe('the demo', { timeout: 60_000 }, () => {
  it('makes the same jobs from the same seed, ids and all, and others from another', async () => {
    const once = await demo(40, 7, everything);
    expect(await demo(40, 7, everything)).toEqual(once);
    expect(await demo(40, 8, everything)).not.toEqual(once);
  });

  it('marks every job and every technician of its own as invented', async () => {
    await demo(40, 7, (records) => {
      expect(jobsOf(records).every(({ invented }) => invented)).toBe(true);
      expect(records.tallies()).toMatchObject({ invented: 40, open: 4, closed: 36 });
      expect(records.technicians.list().every(({ name }) => name.endsWith('(invented)'))).toBe(true);
    });
  });

  it('keeps to the past before its end, in opening hours, never on a Sunday', async () => {
    await demo(150, 3, (records) => {
      for (const { openedAt } of jobsOf(records)) {
        const at = new Date(openedAt);
        expect(at.getTime()).toBeLessThan(UNTIL);
        expect(at.getUTCDay()).not.toBe(0);
        expect(at.getUTCHours()).toBeGreaterThanOrEqual(9);
        expect(at.getUTCHours()).toBeLessThan(17);
      }
    });
  });

  it('brings units back and ends jobs in more ways than one', async () => {
    await demo(200, 3, (records) => {
      const jobs = jobsOf(records);
      expect(new Set(jobs.map(({ serial }) => serial)).size).toBeLessThan(jobs.length);
      expect(new Set(jobs.map(({ outcome }) => outcome)).size).toBeGreaterThanOrEqual(4);
    });
  });

  it('types each reading as a meter shows it, in the band of its result', async () => {
    await demo(60, 5, (records) => {
      let readings = 0;
      for (const job of jobsOf(records)) {
        const { tree } = records.charts.of(job.revisionId);
        for (const { event } of records.events.of(job.jobId)) {
          if (event.kind !== 'answer' || event.reading === undefined) continue;
          const test = tree.tests[event.test];
          if (test?.reading === undefined) throw new Error(event.test);
          readings += 1;
          expect(parseReading(event.reading.typed, test.reading.unit)).toMatchObject({
            ok: true,
            value: event.reading.value,
          });
          const held = resultOf(test, event.reading.value);
          if (held.ok) expect(held.result).toBe(event.result);
          else expect(held.code).toBe('reference-missing');
        }
      }
      expect(readings).toBeGreaterThan(100);
    });
  });

  it('makes what the chart takes, and derives from it what a replay of every event does', async () => {
    await demo(600, 9, (records) =>
      expect(records.rebuild()).toMatchObject({ differed: [], jobs: 600, halted: [] }),
    );
  });

  it('leaves whole days with facts that are put right beside the work where it is ended half-way', async () => {
    const { records, file, close } = seededShop();
    addLibrary(records);
    const ended = new Error('ended');
    const stop = (made: number): void => {
      if (made < 3000) throw ended;
    };
    expect(() => makeDemo({ records, jobs: 3000, seed: 4, until: UNTIL, made: stop })).toThrow(ended);
    await records.close();
    const again = openRecords({ file });
    if (!again.ok) throw new Error(again.message);
    const { closed, open, invented } = again.records.tallies();
    expect([closed, open]).toEqual([invented, 0]);
    expect(closed).toBeGreaterThanOrEqual(1000);
    expect(again.records.factMaking.isDone()).toBe(false);
    again.records.factMaking.finish();
    expect(again.records.rebuild()).toMatchObject({ differed: [], halted: [] });
    await again.records.close();
    await close();
  });

  it('leaves a file that its full check finds sound', async () => {
    const { records, file, close } = seededShop();
    addLibrary(records);
    makeDemo({ records, jobs: 100, seed: 4, until: UNTIL });
    const check = startIntegrityCheck(file);
    expect(await check.done).toBe('sound');
    await close();
  });

  it('says of each unit that came back when it did, within a quarter of a year', async () => {
    const { records, file, close } = seededShop();
    addLibrary(records);
    makeDemo({ records, jobs: 600, seed: 4, until: UNTIL });
    const reader = openFactReader(file);
    const days = factsIn(reader.facts()).flatMap(({ closedAt, backAt }) =>
      backAt === null ? [] : [(backAt - closedAt) / 86_400_000],
    );
    reader.close();
    await close();
    expect(days.length).toBeGreaterThan(20);
    expect(Math.min(...days)).toBeGreaterThanOrEqual(2);
    // the first visit that is free may be days after the one that was meant
    expect(Math.max(...days)).toBeLessThan(100);
  });

  it('has some acts taken from the planner, in few of the jobs', async () => {
    await demo(300, 6, (records) => {
      const advised = jobsOf(records).filter(({ jobId }) =>
        records.events.of(jobId).some(({ event }) => 'advised' in event && event.advised === true),
      );
      expect(advised.length).toBeGreaterThan(0);
      expect(advised.length).toBeLessThan(100);
    });
  });

  it('is left alone by records that hold real jobs', async () => {
    const { records, close } = seededShop();
    addLibrary(records);
    const [tree] = records.trees.list();
    workRandomJob(records, tree?.revisionId ?? '', seededRandom(3), 5);
    expect(makeDemo({ records, jobs: 3, seed: 1, until: UNTIL })).toMatchObject({ code: 'JOBS_THERE' });
    expect(records.tallies()).toMatchObject({ invented: 0 });
    await close();
  });

  it('is not made twice over, nor without trees', async () => {
    const { records, close } = seededShop();
    expect(makeDemo({ records, jobs: 3, seed: 1, until: UNTIL })).toMatchObject({
      ok: false,
      code: 'NO_TREES',
    });
    addLibrary(records);
    makeDemo({ records, jobs: 3, seed: 1, until: UNTIL });
    expect(makeDemo({ records, jobs: 3, seed: 2, until: UNTIL })).toMatchObject({
      ok: false,
      code: 'DEMO_THERE',
    });
    expect(records.tallies().invented).toBe(3);
    await close();
  });
});
