import { createConnection } from 'node:net';
import { join } from 'node:path';
import { createORPCClient, isDefinedError, safe } from '@orpc/client';
import { RPCLink } from '@orpc/client/fetch';
import type { ContractRouterClient } from '@orpc/contract';
import { afterEach, describe, expect, it } from 'vitest';
import type { contract } from '../../main/contract/index.ts';
import { readPage, startLoopbackHost, type Page } from '../../main/loopback/index.ts';
import { ask, builtApp, folder, pathOf, portOf, type Ask, type Reply } from './loopback-support.ts';
import { standInServices } from './stand-in-services.ts';

const FIVE_MINUTES_MS = 5 * 60_000;
const TWELVE_MEBIBYTES = 12 * 1024 * 1024;

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

/** A running host with a clock that the test moves, and what it reported as bugs. */
async function running() {
  const top = folder();
  const clock = { ms: 0 };
  const reported: unknown[] = [];
  const page = readPage(builtApp(top)) as Page;
  const host = await startLoopbackHost({
    instanceFile: join(top, 'shop.sqlite.instance'),
    page,
    openServices: async () => standInServices('loopback'),
    now: () => clock.ms,
    report: (error) => reported.push(error),
  });
  if (host.kind !== 'started') throw new Error('another host has the database');
  closing.push(host.close);
  const port = portOf(host.freshAddress());
  return {
    ...host,
    port,
    clock,
    reported,
    get: (path: string, headers = {}) => ask({ port, path, headers }),
  };
}

type Running = Awaited<ReturnType<typeof running>>;

async function enter(host: Running): Promise<string> {
  const reply = await host.get(pathOf(host.freshAddress()));
  return String(reply.headers['set-cookie']?.[0]).split(';')[0] ?? '';
}

/** What the page itself sends when it asks the services. */
async function question(host: Running, change: Partial<Ask> = {}): Promise<Reply> {
  const headers = {
    cookie: await enter(host),
    origin: `http://127.0.0.1:${host.port}`,
    'sec-fetch-site': 'same-origin',
    'content-type': 'application/json',
    ...change.headers,
  };
  return ask({ port: host.port, path: '/rpc/shop/open', method: 'POST', body: '{}', ...change, headers });
}

describe('the way in', () => {
  it('lets a browser in once by the printed address and sends it to the first page', async () => {
    const host = await running();
    const first = await host.get(pathOf(host.freshAddress()));
    expect([first.status, first.headers.location]).toEqual([303, '/']);
    const cookie = String(first.headers['set-cookie']?.[0]);
    expect(cookie).toMatch(
      new RegExp(`^ohmward-${host.port}=[\\w-]{43}; Path=/; HttpOnly; SameSite=Strict$`),
    );
    const page = await host.get('/', { cookie: cookie.split(';')[0] ?? '' });
    expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    expect(page.text).toContain('<title>Ohmward</title>');
  });

  it('refuses a token that was used', async () => {
    const host = await running();
    const path = pathOf(host.freshAddress());
    await host.get(path);
    const second = await host.get(path);
    expect([second.status, second.headers['set-cookie']]).toEqual([403, undefined]);
    expect(second.text).toContain('Start Ohmward again');
  });

  it('takes a token until five minutes have passed and no longer', async () => {
    const host = await running();
    const [good, old] = [pathOf(host.freshAddress()), pathOf(host.freshAddress())];
    host.clock.ms = FIVE_MINUTES_MS - 1;
    expect((await host.get(good)).status).toBe(303);
    host.clock.ms = FIVE_MINUTES_MS;
    expect((await host.get(old)).status).toBe(403);
  });

  it('does not use a token up for a look by HEAD or from a foreign page', async () => {
    const host = await running();
    const path = pathOf(host.freshAddress());
    expect((await ask({ port: host.port, path, method: 'HEAD' })).status).toBe(403);
    expect((await host.get(path, { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await host.get(path)).status).toBe(303);
  });

  it.each(['/', '/assets/a.js', '/nowhere', '/rpc', '/secret.txt'])(
    'refuses %s without a session, in plain words',
    async (path) => {
      const host = await running();
      const reply = await host.get(path);
      expect(reply.status).toBe(403);
      expect(reply.text).toMatch(/^<!doctype html>/);
    },
  );

  it('refuses a session that it did not give', async () => {
    const host = await running();
    expect((await host.get('/', { cookie: `ohmward-${host.port}=${'a'.repeat(43)}` })).status).toBe(403);
  });
});

describe('what it serves', () => {
  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/..\\secret.txt',
    '//secret.txt',
  ])('gives nothing from outside the built app for %s', async (path) => {
    const host = await running();
    const reply = await host.get(path, { cookie: await enter(host) });
    expect(reply.status).toBe(404);
    expect(reply.text).not.toContain('not for the page');
  });

  it.each(['/assets', '/assets/', '/.hidden'])(
    'lists no folder and gives no hidden file: %s',
    async (path) => {
      const host = await running();
      const reply = await host.get(path, { cookie: await enter(host) });
      expect(reply.status).toBe(404);
      expect(reply.text).not.toMatch(/a\.js|not for the page/);
    },
  );

  it.each(['/', '/nowhere', '/enter?token=wrong'])(
    'sends the policy and the other security headers with %s',
    async (path) => {
      const host = await running();
      const { headers } = await host.get(path, { cookie: await enter(host) });
      expect(String(headers['content-security-policy']).split('; ')).toEqual([
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
      ]);
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-resource-policy': 'same-origin',
        'cache-control': 'no-store',
      });
      expect(headers['access-control-allow-origin']).toBeUndefined();
    },
  );

  it('listens on the loopback address only', async () => {
    const host = await running();
    const outcome = await new Promise<string>((resolve) => {
      const socket = createConnection({ host: '127.0.0.2', port: host.port });
      socket.on('connect', () => resolve('connected'));
      socket.on('error', (error) => resolve('code' in error ? String(error.code) : error.message));
    });
    expect(outcome).not.toBe('connected');
  });
});

describe('whom it answers', () => {
  it('answers the page', async () => {
    const host = await running();
    const reply = await question(host);
    expect(reply.status).toBe(200);
    expect(JSON.parse(reply.text)).toMatchObject({ json: { state: 'ready', host: 'loopback' } });
  });

  it.each([
    'evil.example',
    'evil.example:PORT',
    '127.0.0.1',
    '127.0.0.1:1',
    '[::1]:PORT',
    'localhost.evil.example:PORT',
  ])('refuses the host name %s, session or not', async (name) => {
    const host = await running();
    const named = name.replace('PORT', String(host.port));
    expect((await host.get('/', { cookie: await enter(host), host: named })).status).toBe(403);
    expect((await question(host, { headers: { host: named, origin: `http://${named}` } })).status).toBe(403);
    expect((await host.get(pathOf(host.freshAddress()), { host: named })).status).toBe(403);
  });

  it('takes localhost for 127.0.0.1, if the origin says the same', async () => {
    const host = await running();
    const name = `localhost:${host.port}`;
    expect((await question(host, { headers: { host: name, origin: `http://${name}` } })).status).toBe(200);
    expect((await question(host, { headers: { host: name } })).status).toBe(403);
  });

  it.each([
    'http://evil.example',
    'null',
    'https://127.0.0.1:PORT',
    'http://127.0.0.1:1',
    'http://127.0.0.1',
  ])('refuses a question from the origin %s', async (origin) => {
    const host = await running();
    expect(
      (await question(host, { headers: { origin: origin.replace('PORT', String(host.port)) } })).status,
    ).toBe(403);
  });

  it('refuses a question without an origin', async () => {
    const host = await running();
    const headers = { cookie: await enter(host), 'content-type': 'application/json' };
    expect(
      (await ask({ port: host.port, path: '/rpc/shop/open', method: 'POST', headers, body: '{}' })).status,
    ).toBe(403);
  });

  it.each(['cross-site', 'same-site'])('refuses what the browser marks as %s', async (site) => {
    const host = await running();
    expect((await question(host, { headers: { 'sec-fetch-site': site } })).status).toBe(403);
    expect((await host.get('/', { cookie: await enter(host), 'sec-fetch-site': site })).status).toBe(403);
  });

  it.each(['GET', 'HEAD'])('refuses a question by %s', async (method) => {
    const host = await running();
    const headers = { cookie: await enter(host), origin: `http://127.0.0.1:${host.port}` };
    expect((await ask({ port: host.port, path: '/rpc/shop/open', method, headers })).status).toBe(403);
  });

  it.each(['PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE'])('does not take the method %s', async (method) => {
    const host = await running();
    expect((await question(host, { method, headers: { 'content-length': '2' } })).status).toBe(405);
  });

  it('does not take a POST to a page', async () => {
    const host = await running();
    expect((await question(host, { path: '/' })).status).toBe(405);
  });

  it.each([{}, { authorization: 'Ohmward nonce proof' }, { authorization: 'Bearer x' }])(
    'tells nobody a token who does not know the secret: %o',
    async (headers) => {
      const host = await running();
      const reply = await ask({ port: host.port, path: '/instance', method: 'POST', headers });
      expect(reply.status).toBe(403);
      expect(reply.text).not.toContain('token');
    },
  );
});

describe('how much it takes', () => {
  it('takes a body of twelve mebibytes and no more', async () => {
    const host = await running();
    const pad = (bytes: number): string => `{"json":{"name":"Ada"}}`.padEnd(bytes);
    const path = '/rpc/shop/addTechnician';
    expect((await question(host, { path, body: pad(TWELVE_MEBIBYTES) })).status).toBe(200);
    const headers = { 'content-length': String(TWELVE_MEBIBYTES + 1) };
    expect((await question(host, { path, headers })).status).toBe(413);
  });

  it('stops a body of unsaid length when it gets too long', async () => {
    const host = await running();
    const headers = { 'transfer-encoding': 'chunked' };
    const reply = await question(host, { headers, body: ' '.repeat(TWELVE_MEBIBYTES + 1) });
    expect(reply.status).toBe(413);
  });
});

describe('how many values it takes', () => {
  it('refuses a body of more than 250,000 values before it parses it, and counts none within texts', async () => {
    const host = await running();
    const path = '/rpc/shop/addTechnician';
    const some = (values: number): string => `{"json":{"name":"A"},"x":[1${',1'.repeat(values)}]}`;
    expect((await question(host, { path, body: some(240_000) })).status).toBe(200);
    expect((await question(host, { path, body: some(250_000) })).status).toBe(413);
    const text = JSON.stringify(`\\"${',[{'.repeat(200_000)}`);
    expect((await question(host, { path, body: `{"json":{"name":"A"},"x":${text}}` })).status).toBe(200);
  });
});

describe('what the page is told', () => {
  async function client(host: Running): Promise<ContractRouterClient<typeof contract>> {
    const origin = `http://127.0.0.1:${host.port}`;
    const headers = { cookie: await enter(host), origin };
    return createORPCClient(new RPCLink({ url: `${origin}/rpc`, headers }));
  }

  it('gets an expected failure with its code, place and way out, and nothing is reported', async () => {
    const host = await running();
    const { error } = await safe((await client(host)).backups.make());
    if (!isDefinedError(error)) throw new Error(`not an expected failure: ${String(error)}`);
    expect(error).toMatchObject({
      code: 'DISK_FULL',
      status: 507,
      data: { where: 'shop.sqlite', help: 'Make room.' },
    });
    expect(host.reported).toEqual([]);
  });

  it('gets no words of a bug, which is reported instead', async () => {
    const host = await running();
    const { error } = await safe((await client(host)).trees.list());
    expect(error).toMatchObject({ code: 'INTERNAL_SERVER_ERROR' });
    expect(JSON.stringify(error)).not.toContain('only the log');
    expect(host.reported).toMatchObject([{ message: 'a bug, with words that only the log may show' }]);
  });

  it('gets a refusal for input that does not fit the contract', async () => {
    const host = await running();
    const { error } = await safe((await client(host)).shop.addTechnician({ name: '' }));
    expect(error).toMatchObject({ code: 'BAD_REQUEST' });
  });
});
