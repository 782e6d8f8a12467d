import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/fetch';
import type { ContractRouterClient } from '@orpc/contract';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ensureBuilt } from '../../main/command/build.ts';
import type { contract } from '../../main/contract/index.ts';
import { ask, folder, pathOf, portOf } from './loopback-support.ts';

const TOP = fileURLToPath(new URL('../..', import.meta.url));
const START = join(TOP, 'main', 'command', 'start.ts');

beforeAll(async () => {
  const built = await ensureBuilt(TOP, console.log);
  if (!built.ok) throw new Error(`${built.message} ${built.help}`);
}, 120_000);

const children: ChildProcess[] = [];
afterEach(async () => {
  for (const child of children.splice(0)) await end(child, 'SIGKILL');
});

interface Started {
  readonly child: ChildProcess;
  readonly data: string;
  /** The next line that matches; fails with all it said if the process ends before. */
  readonly line: (pattern: RegExp) => Promise<string>;
  /** Its exit status and all that it said. */
  readonly ended: Promise<{ readonly status: number | null; readonly said: string }>;
}

/** `npm start` with these arguments, with a user-data folder of its own and no screen unless one is given. */
function start(
  args: readonly string[],
  { data = folder(), env = {} }: { data?: string; env?: Record<string, string> } = {},
): Started {
  const child = spawn(process.execPath, [START, ...args], {
    env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '', XDG_DATA_HOME: data, ...env },
  });
  children.push(child);
  const lines: string[] = [];
  const hear = (stream: NodeJS.ReadableStream) =>
    createInterface(stream).on('line', (line) => lines.push(line));
  const [out] = [hear(child.stdout), hear(child.stderr)];
  const ended = once(child, 'close').then(([status]) => ({
    status: status as number | null,
    said: lines.join('\n'),
  }));
  const line = (pattern: RegExp): Promise<string> =>
    new Promise((resolve, reject) => {
      const found = lines.find((one) => pattern.test(one));
      if (found !== undefined) return resolve(found);
      out.on('line', (one) => pattern.test(one) && resolve(one));
      void ended.then(({ said }) => reject(new Error(`ended without ${pattern}:\n${said}`)));
    });
  return { child, data, line, ended };
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill(signal);
  await once(child, 'exit');
}

const ADDRESS = /^Ohmward is at http:\/\/127\.0\.0\.1:\d+\/enter\?token=[\w-]{43}$/;
const addressIn = (line: string): string => line.slice('Ohmward is at '.length);

/** Lets itself in by the printed address, as a browser does, and asks. */
async function client(address: string): Promise<ContractRouterClient<typeof contract>> {
  const { headers } = await ask({ port: portOf(address), path: pathOf(address) });
  const { origin } = new URL(address);
  const cookie = String(headers['set-cookie']?.[0]).split(';')[0] ?? '';
  return createORPCClient(new RPCLink({ url: `${origin}/rpc`, headers: { cookie, origin } }));
}

describe.skipIf(process.platform === 'win32')('npm start', () => {
  it('serves the built app and the services on the database in the user-data folder', async () => {
    const { line, data } = start(['--no-open']);
    const shop = await (await client(addressIn(await line(ADDRESS)))).shop.open();
    expect(shop).toMatchObject({ state: 'ready', host: 'loopback' });
    if (process.platform === 'linux') expect(readdirSync(join(data, 'Ohmward'))).toContain('ohmward.sqlite');
  });

  it('works with another database by --db and leaves the user-data folder alone', async () => {
    const file = join(folder(), 'deep', 'other.sqlite');
    const { line, data } = start(['--no-open', '--db', file]);
    const shop = await (await client(addressIn(await line(ADDRESS)))).shop.open();
    expect(shop.database).toContain('other.sqlite');
    expect([existsSync(file), readdirSync(data)]).toEqual([true, []]);
  });

  it('finds the first at a second start, prints a fresh address of it and ends', async () => {
    const file = join(folder(), 'shop.sqlite');
    const first = addressIn(await start(['--no-open', '--db', file]).line(ADDRESS));
    const second = start(['--no-open', '--db', file]);
    const address = addressIn(await second.line(ADDRESS));
    expect((await second.ended).status).toBe(0);
    expect([portOf(address), address === first]).toEqual([portOf(first), false]);
    expect(await (await client(address)).shop.open()).toMatchObject({ state: 'ready' });
  });

  it.each(['SIGTERM', 'SIGINT'] as const)(
    'ends at %s with the backup on quit, and leaves nothing behind',
    async (signal) => {
      const file = join(folder(), 'shop.sqlite');
      const { child, line, ended } = start(['--no-open', '--db', file]);
      await (await client(addressIn(await line(ADDRESS)))).shop.addTechnician({ name: 'Ada' });
      child.kill(signal);
      child.kill(signal); // npm and the terminal both send it
      expect((await ended).status).toBe(0);
      expect(readdirSync(join(file, '..')).sort()).toEqual(['shop.sqlite', 'shop.sqlite.backups']);
      expect(readdirSync(`${file}.backups`)).toHaveLength(1);
    },
  );

  it('says why it cannot have a window, in one line, and prints the address where there is no screen', async () => {
    const { line } = start([]);
    if (process.platform === 'linux') expect(await line(/window of its own/)).toMatch(/no screen/);
    await line(ADDRESS);
  });

  it.each([
    [['--nonsense'], /nonsense/],
    [['--host', 'cloud'], /no host "cloud"/],
    [['--host', 'desktop', '--no-open'], /loopback host only/],
    [['--db', ''], /name of a file/],
    [['extra'], /extra/],
  ])('ends with 2 and its usage when asked wrongly: %j', async (args, words) => {
    const { status, said } = await start(args).ended;
    expect(status).toBe(2);
    expect(said).toMatch(words);
    expect(said).toContain('npm start -- [--db FILE]');
  });

  it('says in plain words that the folder for the database cannot be made', async () => {
    const inTheWay = join(folder(), 'file');
    writeFileSync(inTheWay, '');
    const { status, said } = await start(['--no-open', '--db', join(inTheWay, 'shop.sqlite')]).ended;
    expect(status).toBe(1);
    expect(said).toMatch(
      /^The folder for the database cannot be made: .*\nName a file in another folder with --db FILE\.$/,
    );
  });

  it('ends with 0 and its usage at --help', async () => {
    const { status, said } = await start(['--help']).ended;
    expect([status, said.includes('--no-open')]).toEqual([0, true]);
  });

  it.runIf(process.platform === 'linux')(
    'does not fall back to the browser where the window was asked for',
    async () => {
      const { status, said } = await start(['--host', 'desktop']).ended;
      expect(status).toBe(1);
      expect(said).toMatch(/No window of its own: there is no screen.*\n.*--host/);
    },
  );
});

describe.skipIf(process.platform === 'win32')('opening the browser', () => {
  /** A program that writes down what it was called with and ends with a status. */
  function fakeBrowser(status: number) {
    const top = folder();
    const [program, record] = [join(top, 'browser'), join(top, 'called-with')];
    writeFileSync(
      program,
      `#!/bin/sh\nprintf '%s\\n' "$@" > '${record}.part'\nmv '${record}.part' '${record}'\nexit ${status}\n`,
    );
    chmodSync(program, 0o755);
    return { program, calledWith: () => readFileSync(record, 'utf8').trim().split('\n') };
  }

  const onScreen = (program: string) => ({ env: { DISPLAY: ':99', OHMWARD_BROWSER: program } });

  it('opens an app window with a profile of its own, quietly, at an address that lets it in', async () => {
    const { program, calledWith } = fakeBrowser(0);
    const { line, data } = start(['--host', 'loopback'], onScreen(program));
    expect(await line(/is open in/)).toBe(`Ohmward is open in ${program}.`);
    const [app = '', profile, ...flags] = calledWith();
    expect(profile?.startsWith(`--user-data-dir=${process.platform === 'linux' ? data : ''}`)).toBe(true);
    expect(flags).toEqual([
      '--no-first-run',
      '--no-default-browser-check',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
    ]);
    expect(await (await client(app.replace(/^--app=/, ''))).shop.open()).toMatchObject({ state: 'ready' });
  });

  it('prints another address when the browser does not come up', async () => {
    const { program, calledWith } = fakeBrowser(3);
    const { line } = start(['--host', 'loopback'], onScreen(program));
    expect(await line(/did not open/)).toContain('it ended with status 3');
    const address = addressIn(await line(ADDRESS));
    expect(calledWith()[0]).not.toBe(`--app=${address}`);
    expect(await (await client(address)).shop.open()).toMatchObject({ state: 'ready' });
  });

  it('says how to get a browser when there is none, and prints the address', async () => {
    const { line } = start(['--host', 'loopback'], onScreen('/nowhere/browser'));
    expect(await line(/No browser/)).toMatch(/install Chromium, Chrome or Edge.*OHMWARD_BROWSER/);
    await line(ADDRESS);
  });
});
