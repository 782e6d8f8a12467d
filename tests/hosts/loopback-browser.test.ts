import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Browser } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPage, startLoopbackHost, type LoopbackHost, type Page } from '../../main/loopback/index.ts';
import { launchBrowser } from '../support/browser.ts';
import { builtApp, folder } from './loopback-support.ts';
import { standInServices } from './stand-in-services.ts';

type Started = Extract<LoopbackHost, { kind: 'started' }>;

let browser: Browser;
let host: Started;
let asked = 0;
const top = folder();

beforeAll(async () => {
  browser = await launchBrowser();
  const started = await startLoopbackHost({
    instanceFile: join(top, 'shop.sqlite.instance'),
    page: readPage(builtApp(top)) as Page,
    openServices: async () => standInServices('loopback', () => (asked += 1)),
    now: () => performance.now(),
    report: console.error,
  });
  if (started.kind !== 'started') throw new Error('another host has the database');
  host = started;
}, 60_000);
afterAll(async () => {
  await browser.close();
  await host.close();
});

/** A foreign page, served at another port of this machine, in a browser that Ohmward has let in. */
async function foreignPage() {
  const foreign = createServer((_request, response) =>
    response.setHeader('content-type', 'text/html').end('<title>foreign</title>'),
  ).listen(0, '127.0.0.1');
  await once(foreign, 'listening');
  const context = await browser.newContext();
  const own = await context.newPage();
  await own.goto(host.freshAddress());
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${(foreign.address() as AddressInfo).port}/`);
  const { origin } = new URL(own.url());
  const close = async (): Promise<void> => {
    await context.close();
    foreign.close();
  };
  return { own, page, origin, close };
}

const ASK = {
  method: 'POST',
  credentials: 'include',
  body: '{}',
  headers: { 'content-type': 'application/json' },
} as const;

describe('the loopback host in a real browser', () => {
  it('lets the browser in, runs the page under its policy and answers it', async () => {
    const { own, origin, close } = await foreignPage();
    await own.waitForFunction(() => document.title === 'it runs');
    expect(own.url()).toBe(`${origin}/`);
    const status = await own.evaluate(async (ask) => (await fetch('/rpc/shop/open', ask)).status, ASK);
    expect(status).toBe(200);
    expect(await own.evaluate(() => document.cookie)).toBe('');
    await close();
  });

  it('lets a foreign page in the same browser neither ask nor read', async () => {
    const { own, page, origin, close } = await foreignPage();
    const before = asked;
    const tries = await page.evaluate(
      ([at, ask]) => {
        const tryTo = (path: string, init: RequestInit) =>
          fetch(at + path, init).then(
            ({ type }) => type,
            () => 'failed',
          );
        return Promise.all([
          tryTo('/', { credentials: 'include' }),
          tryTo('/rpc/shop/open', ask),
          // A plain form's kind of request, which browsers send without asking first.
          tryTo('/rpc/shop/open', { ...ask, mode: 'no-cors', headers: { 'content-type': 'text/plain' } }),
        ]);
      },
      [origin, ASK] as const,
    );
    expect(tries).toEqual(['failed', 'failed', 'failed']);
    await own.evaluate((ask) => fetch('/rpc/shop/open', ask).then(({ status }) => status), ASK);
    expect(asked - before).toBe(1);
    await close();
  });

  it('lets no foreign page frame it', async () => {
    const { page, origin, close } = await foreignPage();
    await page.evaluate((at) => {
      const frame = document.createElement('iframe');
      frame.src = at;
      document.body.append(frame);
    }, origin);
    await expect
      .poll(() => page.frames().at(-1)?.url(), { timeout: 10_000 })
      .toBe('chrome-error://chromewebdata/');
    await close();
  });
});
