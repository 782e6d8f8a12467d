import { describe, expect, it } from 'vitest';
import { closedSpeakerJob, openShop, recordsOf, SPEAKER_MENDED } from '../support/temp-shop.ts';

describe('a job through the services', () => {
  it('is walked from symptom to fix, and its counts are there at once', async () => {
    const shop = await openShop();
    const { jobId } = await closedSpeakerJob(shop);
    const { job, events } = await shop.client.jobs.get({ jobId });
    expect(job).toMatchObject({
      outcome: 'fixed',
      finding: 'speaker-open',
      findingTitle: 'Speaker open',
      events: 11,
    });
    expect(events.map(({ event }) => event)).toEqual(SPEAKER_MENDED);
    expect(await shop.client.history.of({ treeId: 'small' })).toEqual({
      findings: { 'no-sound': { 'speaker-open': 1 } },
      results: {
        'supply-resistance': { 'speaker-open': { clear: 1 } },
        tone: { 'speaker-open': { silent: 1 } },
      },
      remedies: { 'speaker-open': { tried: 1, mended: 1 } },
    });
  });

  it('gives its counts back when its closing is taken back', async () => {
    const shop = await openShop();
    const { jobId, append } = await closedSpeakerJob(shop);
    await append({ kind: 'take-back' });
    expect(await shop.client.history.of({ treeId: 'small' })).toEqual({
      findings: {},
      results: {},
      remedies: {},
    });
    const { job } = await shop.client.jobs.get({ jobId });
    expect(job).toMatchObject({ outcome: null, finding: null, findingTitle: null, events: 12 });
    expect(recordsOf(shop).tallies()).toMatchObject({ open: 1, closed: 0 });
  });
});
