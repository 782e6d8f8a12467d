import { describe, expect, it } from 'vitest';
import { contributionOf } from '../../trees/belief/index.ts';
import { replay, standing } from '../../trees/chart/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { workRandomJob } from '../support/random-job.ts';
import {
  closedSpeakerJob,
  openShop,
  recordsOf,
  SPEAKER_MENDED,
  startSmallJob,
} from '../support/temp-shop.ts';

async function worked(jobs: number) {
  const shop = await openShop();
  const records = recordsOf(shop);
  const revisionId = records.trees.currentId('small') ?? '';
  const random = seededRandom(7);
  records.together(() => {
    for (let job = 0; job < jobs; job += 1) workRandomJob(records, revisionId, random, 90);
  });
  return { shop, records, client: shop.client };
}

describe('past readings', () => {
  it('are those that the counts of a test are made of, each with its accuracy and finding', async () => {
    const { client, records } = await worked(60);
    const { readings, more } = await client.history.readings({ treeId: 'small', test: 'supply-resistance' });
    const counted = Object.values(records.historyOf('small').results['supply-resistance'] ?? {})
      .flatMap((byResult) => Object.values(byResult))
      .reduce((sum, jobs) => sum + jobs, 0);
    expect(counted).toBeGreaterThan(5);
    expect(readings).toHaveLength(counted);
    expect(more).toBe(false);
    const closed = readings.map(({ closedAt }) => closedAt);
    expect(closed).toEqual([...closed].sort().reverse());
    for (const { result, finding } of readings) {
      expect(records.historyOf('small').results['supply-resistance']?.[finding]?.[result]).toBeGreaterThan(0);
    }
  });

  it('are no more than asked for, the newest, and say that there are more', async () => {
    const { client } = await worked(60);
    const ask = { treeId: 'small', test: 'supply-resistance' };
    const all = await client.history.readings(ask);
    const some = await client.history.readings({ ...ask, limit: 3 });
    expect(some).toEqual({ readings: all.readings.slice(0, 3), more: true });
  });

  it('give the reading as taken, and are none of a test that was never measured', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const ask = (test: string) => shop.client.history.readings({ treeId: 'small', test });
    expect((await ask('supply-resistance')).readings).toMatchObject([
      { value: 1200, reference: null, result: 'clear', finding: 'speaker-open', era0: true },
    ]);
    expect((await ask('tone')).readings).toEqual([]);
    expect((await ask('no-such-test')).readings).toEqual([]);
    await expect(shop.client.history.readings({ treeId: 'other', test: 'tone' })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
  });
});

describe('past jobs', () => {
  it('are the closed ones, newest first, with all their events', async () => {
    const shop = await openShop();
    const first = await closedSpeakerJob(shop);
    await startSmallJob(shop, 'dark-screen');
    const last = await startSmallJob(shop, 'no-sound');
    await last.append({ kind: 'close', outcome: 'declined' });
    const jobs = await shop.client.history.jobs({ treeId: 'small' });
    expect(jobs).toMatchObject([
      { jobId: last.jobId, outcome: 'declined', finding: null, events: [{ kind: 'close' }] },
      {
        jobId: first.jobId,
        outcome: 'fixed',
        finding: 'speaker-open',
        symptom: 'no-sound',
        serial: 'S-0001',
      },
    ]);
    expect(jobs[1]?.events).toEqual(SPEAKER_MENDED);
    expect(await shop.client.history.jobs({ treeId: 'small', limit: 1 })).toHaveLength(1);
  });

  it('replay on their revision to what the history counts', async () => {
    const { client, records } = await worked(40);
    const jobs = await client.history.jobs({ treeId: 'small', limit: 500 });
    const confirmed = jobs.filter(({ revisionId, symptom, events }) => {
      const { chart, tree } = records.charts.of(revisionId);
      const walked = replay(chart, symptom, events);
      if (!walked.ok) throw new Error(walked.refusal.code);
      return (contributionOf(tree, standing(walked.walk).job)?.confirmed ?? null) !== null;
    });
    const counted = Object.values(records.historyOf('small').findings)
      .flatMap((byFinding) => Object.values(byFinding))
      .reduce((sum, count) => sum + count, 0);
    expect(counted).toBeGreaterThan(3);
    expect(confirmed).toHaveLength(counted);
  });
});
