import { describe, expect, it } from 'vitest';
import { defaultAccuracy } from '../../trees/belief/index.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { openShop, recordsOf, startSmallJob } from '../support/temp-shop.ts';

const clear: JobEvent = {
  kind: 'answer',
  test: 'supply-resistance',
  result: 'clear',
  reading: { value: 1200, typed: '1k2', accuracy: defaultAccuracy('ohms') },
};

const SPEAKER_MENDED: readonly JobEvent[] = [
  { kind: 'change', axis: 'shell', to: 'open' },
  clear,
  { kind: 'change', axis: 'power', to: 'on' },
  { kind: 'answer', test: 'tone', result: 'silent' },
  { kind: 'start-remedy', finding: 'speaker-open' },
  { kind: 'change', axis: 'power', to: 'off' },
  { kind: 'remedy-done', note: 'New speaker in.' },
  clear,
  { kind: 'change', axis: 'power', to: 'on' },
  { kind: 'answer', test: 'tone', result: 'heard' },
  { kind: 'close', outcome: 'fixed' },
];

describe('a job through the services', () => {
  it('is walked from symptom to fix, and its counts are there at once', async () => {
    const shop = await openShop();
    const { jobId, append } = await startSmallJob(shop, 'no-sound');
    for (const event of SPEAKER_MENDED) await append(event);
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
    const { jobId, append } = await startSmallJob(shop, 'no-sound');
    for (const event of SPEAKER_MENDED) await append(event);
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
