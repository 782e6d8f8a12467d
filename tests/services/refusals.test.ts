import { describe, expect, it } from 'vitest';
import { defaultAccuracy } from '../../trees/belief/index.ts';
import type { JobEvent } from '../../trees/chart/index.ts';
import { openServices } from '../../main/services/index.ts';
import { openShop, recordsOf, startSmallJob, tempFolder, libraryOf } from '../support/temp-shop.ts';

const NOBODY = '01900000-0000-7000-8000-000000000000';

function supply(accuracy: { percent: number; constant: number }, instrument?: string): JobEvent {
  const reading = { value: 1200, typed: '1k2', accuracy, ...(instrument !== undefined && { instrument }) };
  return { kind: 'answer', test: 'supply-resistance', result: 'clear', reading };
}

async function openedJob() {
  const shop = await openShop();
  const job = await startSmallJob(shop, 'no-sound');
  await job.append({ kind: 'change', axis: 'shell', to: 'open' });
  return { shop, ...job };
}

describe('jobs.append', () => {
  it('refuses what the chart does not take, in the chart’s words, and records nothing', async () => {
    const { shop, jobId, append } = await openedJob();
    await expect(append({ kind: 'change', axis: 'power', to: 'on' })).rejects.toMatchObject({
      code: 'EVENT_REFUSED',
      data: { where: '/event', help: expect.stringMatching(/./) },
    });
    expect((await shop.client.jobs.get({ jobId })).events).toHaveLength(1);
  });

  it('refuses a result that is not the one whose band holds the reading', async () => {
    const { append } = await openedJob();
    const reading = { value: 3, typed: '3', accuracy: defaultAccuracy('ohms') };
    const event = { kind: 'answer', test: 'supply-resistance', result: 'clear', reading } as const;
    await expect(append(event)).rejects.toMatchObject({ code: 'EVENT_REFUSED' });
  });

  it.each([0, 2, 1e9])('refuses sequence number %d where 1 is due, and records nothing', async (seq) => {
    const { shop, jobId, technicianId } = await openedJob();
    const event = { kind: 'change', axis: 'shell', to: 'closed' } as const;
    await expect(shop.client.jobs.append({ jobId, seq, technicianId, event })).rejects.toMatchObject({
      code: 'STALE_SEQUENCE',
    });
    expect((await shop.client.jobs.get({ jobId })).events).toHaveLength(1);
  });

  it('refuses an event on a job that another program has added to, until it is read again', async () => {
    const { shop, jobId, technicianId, append } = await openedJob();
    const other = await openServices({ file: shop.file, host: 'loopback', library: libraryOf(tempFolder()) });
    const records = recordsOf({ services: other });
    const { tree, chart } = records.charts.of((await shop.client.jobs.get({ jobId })).job.revisionId);
    expect(chart.tree).toBe(tree);
    const { append: appendThere } = await import('../../main/services/append.ts');
    const event = { kind: 'change', axis: 'shell', to: 'closed' } as const;
    const there = appendThere(records, other.desk.walks, { jobId, seq: 1, technicianId, event });
    expect(there.ok).toBe(true);
    await other.close();
    await expect(append(event)).rejects.toMatchObject({ code: 'STALE_SEQUENCE' });
    const opened = { kind: 'change', axis: 'shell', to: 'open' } as const;
    expect(await shop.client.jobs.append({ jobId, seq: 2, technicianId, event: opened })).toMatchObject({
      seq: 2,
    });
  });

  it('refuses a job that is not there', async () => {
    const { shop, technicianId } = await openedJob();
    const event = { kind: 'turn-back' } as const;
    await expect(
      shop.client.jobs.append({ jobId: NOBODY, seq: 0, technicianId, event }),
    ).rejects.toMatchObject({
      code: 'NOT_FOUND',
      data: { where: '/jobId' },
    });
  });

  it('refuses a technician who is not there, and one who is retired', async () => {
    const { shop, jobId, technicianId } = await openedJob();
    const event = { kind: 'change', axis: 'shell', to: 'closed' } as const;
    const refused = { code: 'NOT_FOUND', data: { where: '/technicianId' } };
    await expect(
      shop.client.jobs.append({ jobId, seq: 1, technicianId: NOBODY, event }),
    ).rejects.toMatchObject(refused);
    await shop.client.shop.retireTechnician({ id: technicianId });
    await expect(shop.client.jobs.append({ jobId, seq: 1, technicianId, event })).rejects.toMatchObject(
      refused,
    );
  });

  it('refuses an accuracy better than the usual one where no instrument is named', async () => {
    const { append } = await openedJob();
    await expect(append(supply({ percent: 0, constant: 0 }))).rejects.toMatchObject({
      code: 'EVENT_REFUSED',
      data: { where: '/event/reading/accuracy' },
    });
    expect(await append(supply(defaultAccuracy('ohms')))).toMatchObject({ seq: 1 });
  });

  it('takes a named instrument’s own accuracy and no other', async () => {
    const { shop, append } = await openedJob();
    const own = { percent: 0.2, constant: 0.05 };
    const { id } = await shop.client.shop.addInstrument({ name: 'Bench meter', measures: 'ohms', ...own });
    await expect(append(supply(defaultAccuracy('ohms'), id))).rejects.toMatchObject({
      code: 'EVENT_REFUSED',
    });
    expect(await append(supply(own, id))).toMatchObject({ seq: 1 });
  });

  it('refuses an instrument that is retired, measures something else or is not there', async () => {
    const { shop, append } = await openedJob();
    const own = { percent: 0.2, constant: 0.05 };
    const volts = await shop.client.shop.addInstrument({ name: 'Volts', measures: 'dc-volts', ...own });
    const old = await shop.client.shop.addInstrument({ name: 'Old', measures: 'ohms', ...own });
    await shop.client.shop.retireInstrument({ id: old.id });
    for (const id of [volts.id, old.id, NOBODY, 'meter']) {
      await expect(append(supply(own, id))).rejects.toMatchObject({
        code: 'NOT_FOUND',
        data: { where: '/event/reading/instrument' },
      });
    }
  });
});

describe('jobs.start', () => {
  it.each([
    [{ revisionId: NOBODY }, '/revisionId'],
    [{ symptom: 'on-fire' }, '/symptom'],
    [{ symptom: 'constructor' }, '/symptom'],
    [{ board: 'Z9' }, '/board'],
    [{ technicianId: NOBODY }, '/technicianId'],
  ])('refuses %j and opens no job', async (wrong, where) => {
    const { shop, revisionId, technicianId } = await openedJob();
    const ticket = { revisionId, symptom: 'no-sound', board: '', serial: 'S', reference: '', technicianId };
    await expect(shop.client.jobs.start({ ...ticket, ...wrong })).rejects.toMatchObject({
      code: 'NOT_FOUND',
      data: { where },
    });
    expect(recordsOf(shop).tallies().open).toBe(1);
  });

  it.each([{ serial: '' }, { serial: 'a\u0000b' }, { reference: '\ud800' }, { board: 'x'.repeat(41) }])(
    'does not take the ticket %j',
    async (wrong) => {
      const { shop, revisionId, technicianId } = await openedJob();
      const ticket = { revisionId, symptom: 'no-sound', board: '', serial: 'S', reference: '', technicianId };
      await expect(shop.client.jobs.start({ ...ticket, ...wrong })).rejects.toMatchObject({
        code: 'BAD_REQUEST',
      });
    },
  );
});

describe('what is not there or already there', () => {
  it('is said by its code and place', async () => {
    const { shop, revisionId } = await openedJob();
    const { client } = shop;
    const notFound = { code: 'NOT_FOUND' };
    await expect(client.jobs.get({ jobId: NOBODY })).rejects.toMatchObject(notFound);
    await expect(client.trees.revision({ revisionId: NOBODY })).rejects.toMatchObject(notFound);
    await expect(client.trees.picture({ revisionId, file: '../secret.svg' })).rejects.toMatchObject(notFound);
    await expect(client.history.of({ treeId: 'no-such-tree' })).rejects.toMatchObject(notFound);
    await expect(client.shop.retireTechnician({ id: NOBODY })).rejects.toMatchObject(notFound);
    await expect(client.shop.retireInstrument({ id: NOBODY })).rejects.toMatchObject(notFound);
    await expect(client.shop.addTechnician({ name: ' ada ' })).rejects.toMatchObject({ code: 'NAME_TAKEN' });
  });

  it('a retired technician’s name may be given again', async () => {
    const { shop, technicianId } = await openedJob();
    await shop.client.shop.retireTechnician({ id: technicianId });
    expect(await shop.client.shop.addTechnician({ name: 'Ada' })).toMatchObject({
      name: 'Ada',
      retired: false,
    });
  });
});

describe('records that cannot be opened', () => {
  it('are said by shop.open with code and help, and by everything else as unavailable', async () => {
    const { client } = await openShop({ file: tempFolder() });
    expect(await client.shop.open()).toMatchObject({ state: 'unavailable', code: 'UNREADABLE', backups: [] });
    await expect(client.trees.list()).rejects.toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
    await expect(client.jobs.list({ status: 'open' })).rejects.toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
    await expect(client.backups.make()).rejects.toMatchObject({ code: 'RECORDS_UNAVAILABLE' });
    await expect(client.shop.addTechnician({ name: 'Ada' })).rejects.toMatchObject({
      code: 'RECORDS_UNAVAILABLE',
    });
  });
});
