import { request } from 'node:http';
import { implement } from '@orpc/server';
import { describe, expect, it } from 'vitest';
import { contract, type ReviewPage } from '../../main/contract/index.ts';
import type { Mounted } from '../../main/loopback/index.ts';
import { closedSpeakerJob, openShop } from '../support/temp-shop.ts';
import { ask, hostOf } from './loopback-support.ts';
import { standInServices } from './stand-in-services.ts';

describe('the review through the loopback host', () => {
  it('is the one that the services make', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const { port, headers } = await hostOf(shop.services);
    const body = JSON.stringify({ json: { tree: 'small' } });
    const reply = await ask({ port, path: '/rpc/review/figures', method: 'POST', headers, body });
    expect(reply.status).toBe(200);
    const { json } = JSON.parse(reply.text) as { readonly json: ReviewPage };
    const { review, ...more } = await shop.client.review.figures({ tree: 'small' });
    expect(json).toEqual({ review: { ...review, asOf: json.review.asOf }, ...more });
    expect(json.review.jobs).toBe(1);
  });

  it('tells the services when the page has given a question up, which is no bug', async () => {
    const abandoned = Promise.withResolvers<void>();
    const asked = Promise.withResolvers<void>();
    const standIn = standInServices('loopback');
    const os = implement(contract);
    const figures = os.review.figures.handler(async ({ signal, errors }) => {
      signal?.addEventListener('abort', () => abandoned.resolve());
      asked.resolve();
      await abandoned.promise;
      throw errors.RECORDS_UNAVAILABLE({ message: 'Given up.', data: { where: '', help: '' } });
    });
    const router = { ...standIn.router, review: { ...standIn.router.review, figures } };
    const { port, headers, reported } = await hostOf({ ...standIn, router } as Mounted);
    const sent = request({ port, host: '127.0.0.1', path: '/rpc/review/figures', method: 'POST', headers });
    sent.on('error', () => undefined);
    sent.end('{"json":{}}');
    await asked.promise;
    sent.destroy();
    await abandoned.promise;
    expect((await ask({ port, path: '/rpc/shop/open', method: 'POST', headers, body: '{}' })).status).toBe(
      200,
    );
    expect(reported).toEqual([]);
  });
});
