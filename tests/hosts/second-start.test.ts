import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import { ask, builtApp, folder, pathOf, portOf } from './loopback-support.ts';

const CHILD = fileURLToPath(new URL('./host-child.ts', import.meta.url));
const startSchema = z.object({ kind: z.enum(['started', 'found']), address: z.string() });
const instanceSchema = z.strictObject({ pid: z.number(), port: z.number(), secret: z.string() });

const children: ChildProcess[] = [];
afterEach(async () => {
  for (const child of children.splice(0)) await end(child, 'SIGKILL');
});

/** A place for one database's instance file, with a built app beside it. */
function place() {
  const top = folder();
  return { top, file: join(top, 'shop.sqlite.instance'), renderer: builtApp(top) };
}

/** Starts a host in a process of its own and waits for what it says. */
async function start({ file, renderer }: { readonly file: string; readonly renderer: string }) {
  const child = spawn(process.execPath, [CHILD, file, renderer], { stdio: ['ignore', 'pipe', 'inherit'] });
  children.push(child);
  const [line] = await once(createInterface(child.stdout), 'line');
  return { child, ...startSchema.parse(JSON.parse(String(line))) };
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill(signal);
  await once(child, 'exit');
}

const instanceIn = (file: string) => instanceSchema.parse(JSON.parse(readFileSync(file, 'utf8')));

describe('a second start', () => {
  it('finds the first, ends, and its address lets a browser into the first, once', async () => {
    const here = place();
    const first = await start(here);
    const second = await start(here);
    if (second.child.exitCode === null) await once(second.child, 'exit');
    expect([first.kind, second.kind, second.child.exitCode]).toEqual(['started', 'found', 0]);
    const port = portOf(first.address);
    expect(portOf(second.address)).toBe(port);
    expect(pathOf(second.address)).not.toBe(pathOf(first.address));
    expect((await ask({ port, path: pathOf(second.address) })).status).toBe(303);
    expect((await ask({ port, path: pathOf(second.address) })).status).toBe(403);
    expect((await ask({ port, path: pathOf(first.address) })).status).toBe(303);
  });

  it('is a host of its own for another database', async () => {
    const here = place();
    const first = await start(here);
    const second = await start({ ...here, file: join(here.top, 'other.sqlite.instance') });
    expect([first.kind, second.kind]).toEqual(['started', 'started']);
    expect(portOf(second.address)).not.toBe(portOf(first.address));
  });

  it('comes back at the same port for the same database, so that the browser remembers what it did', async () => {
    const here = place();
    const first = await start(here);
    await end(first.child, 'SIGTERM');
    expect(portOf((await start(here)).address)).toBe(portOf(first.address));
  });

  it('listens at another port where its own is taken', async () => {
    const here = place();
    const first = await start(here);
    const taken = portOf(first.address);
    await end(first.child, 'SIGTERM');
    const stranger = createServer().listen(taken, '127.0.0.1');
    await once(stranger, 'listening');
    const second = await start(here);
    stranger.close();
    expect(second.kind).toBe('started');
    expect(portOf(second.address)).not.toBe(taken);
  });

  it('takes the place of one that was killed', async () => {
    const here = place();
    const first = await start(here);
    await end(first.child, 'SIGKILL');
    expect(existsSync(here.file)).toBe(true);
    const second = await start(here);
    expect(second.kind).toBe('started');
    expect(instanceIn(here.file).pid).toBe(second.child.pid);
  });

  it('takes the place of one whose process number is in use again but which does not answer', async () => {
    const here = place();
    const silent = createServer().listen(0, '127.0.0.1');
    await once(silent, 'listening');
    const { port } = silent.address() as AddressInfo;
    silent.close();
    await once(silent, 'close');
    writeFileSync(here.file, JSON.stringify({ pid: process.pid, port, secret: 's'.repeat(43) }));
    expect((await start(here)).kind).toBe('started');
  });

  it('takes the place of one at whose port a stranger answers, and never tells the stranger the secret', async () => {
    const here = place();
    const secret = 's'.repeat(43);
    const heard: string[] = [];
    const stranger = createServer((request, response) => {
      heard.push(`${request.url} ${JSON.stringify(request.headers)}`);
      response.end(JSON.stringify({ token: 'come-in', proof: 'p'.repeat(43) }));
    });
    stranger.listen(0, '127.0.0.1');
    await once(stranger, 'listening');
    const { port } = stranger.address() as AddressInfo;
    writeFileSync(here.file, JSON.stringify({ pid: process.pid, port, secret }));
    const second = await start(here);
    stranger.close();
    expect([second.kind, heard.length]).toEqual(['started', 1]);
    expect(heard[0]).not.toContain(secret);
  });

  it.each(['', '{', '{"pid":1}'])(
    'takes the place of an instance file that says nothing: %j',
    async (text) => {
      const here = place();
      writeFileSync(here.file, text);
      expect((await start(here)).kind).toBe('started');
    },
  );
});

describe('starts at the same moment', () => {
  it.each([
    ['in an empty place', null],
    ['over a left-over instance file', { pid: 2 ** 22 + 1, port: 9, secret: 's'.repeat(43) }],
  ])('make one host that the others find, %s', async (_where, leftOver) => {
    const here = place();
    if (leftOver !== null) writeFileSync(here.file, JSON.stringify(leftOver));
    const starts = await Promise.all(Array.from({ length: 6 }, () => start(here)));
    expect(starts.filter(({ kind }) => kind === 'started')).toHaveLength(1);
    expect(new Set(starts.map(({ address }) => portOf(address))).size).toBe(1);
    expect(readdirSync(here.top).sort()).toEqual(['renderer', 'secret.txt', 'shop.sqlite.instance']);
  });
});

describe('two starts that find the same left-over instance file', () => {
  it('make one host, even if the slower one looks the file over before the other has replaced it', async () => {
    const here = place();
    const waiting: ServerResponse[] = [];
    const silent = createServer((_request, response) => waiting.push(response)).listen(0, '127.0.0.1');
    await once(silent, 'listening');
    const { port } = silent.address() as AddressInfo;
    writeFileSync(here.file, JSON.stringify({ pid: process.pid, port, secret: 's'.repeat(43) }));
    const starts = [start(here), start(here)];
    await vi.waitFor(() => expect(waiting).toHaveLength(2), { timeout: 10_000 });
    waiting[0]?.end('no');
    const faster = await Promise.race(starts);
    waiting[1]?.end('no');
    const both = await Promise.all(starts);
    silent.close();
    expect(faster.kind).toBe('started');
    expect(both.map(({ kind }) => kind).sort()).toEqual(['found', 'started']);
    expect(new Set(both.map(({ address }) => portOf(address))).size).toBe(1);
    expect(instanceIn(here.file).pid).toBe(faster.child.pid);
  });
});

describe('the instance file', () => {
  it.skipIf(process.platform === 'win32')('is for its owner alone', async () => {
    const here = place();
    await start(here);
    expect(statSync(here.file).mode & 0o777).toBe(0o600);
  });

  it('is gone after a clean end', async () => {
    const here = place();
    const { child } = await start(here);
    await end(child, 'SIGTERM');
    expect([child.exitCode, existsSync(here.file)]).toEqual([0, false]);
  });

  it.runIf(process.platform === 'linux')(
    'may be missing where nothing can be written, so that the app can say so',
    async () => {
      // Not even root can make a file here.
      const { kind, address } = await start({ ...place(), file: '/sys/shop.sqlite.instance' });
      expect(kind).toBe('started');
      expect((await ask({ port: portOf(address), path: pathOf(address) })).status).toBe(303);
    },
  );
});
