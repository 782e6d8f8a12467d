import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { whyNoWindow } from '../../main/command/desktop.ts';
import { findOrFetchRuntime } from '../../main/command/electron-runtime.ts';
import { folder } from './loopback-support.ts';

const A_DAY_MS = 24 * 60 * 60_000;

/** A repository's folder whose `electron` package has this installer; it counts how often it was run. */
function withInstaller(script: string) {
  const top = folder();
  const home = join(top, 'node_modules', 'electron');
  mkdirSync(home, { recursive: true });
  const count = join(top, 'count');
  writeFileSync(join(home, 'package.json'), '{"type":"commonjs"}');
  writeFileSync(
    join(home, 'install.js'),
    `const fs = require('fs'); fs.appendFileSync(${JSON.stringify(count)}, 'x');\n${script}`,
  );
  const said: string[] = [];
  const find = (now: number) => findOrFetchRuntime({ top, now: () => now, say: (line) => said.push(line) });
  return { find, home, said, runs: () => (existsSync(count) ? readFileSync(count, 'utf8').length : 0) };
}

const INSTALL = `fs.mkdirSync(__dirname + '/dist'); fs.writeFileSync(__dirname + '/dist/electron', ''); fs.writeFileSync(__dirname + '/path.txt', 'electron');`;
const FAIL = `console.error('\\nRequestError: getaddrinfo ENOTFOUND\\n    at somewhere'); process.exit(1);`;

describe('Electron’s runtime', () => {
  it('is fetched by its own installer where it is not there yet, and then taken as it is', async () => {
    const { find, home, runs, said } = withInstaller(INSTALL);
    const present = { kind: 'present', executable: join(home, 'dist', 'electron') };
    expect([await find(0), await find(1)]).toEqual([present, present]);
    expect([runs(), said]).toEqual([1, ['Fetching Electron’s runtime …']]);
  });

  it('is not asked for again for a day after it could not be fetched', async () => {
    const { find, runs } = withInstaller(FAIL);
    const absent = { kind: 'absent', because: 'RequestError: getaddrinfo ENOTFOUND' };
    expect([await find(0), await find(A_DAY_MS - 1)]).toEqual([absent, absent]);
    expect(runs()).toBe(1);
    expect([await find(A_DAY_MS), runs()]).toEqual([absent, 2]);
  });

  it('is not taken for one when it was fetched by half', async () => {
    const { find, home } = withInstaller(FAIL);
    mkdirSync(join(home, 'dist'));
    writeFileSync(join(home, 'path.txt'), 'electron');
    expect((await find(0)).kind).toBe('absent');
  });

  it('is absent where the package was not installed', async () => {
    const found = await findOrFetchRuntime({ top: folder(), now: () => 0, say: () => undefined });
    expect(found).toEqual({ kind: 'absent', because: 'Electron is not installed' });
  });
});

describe('a window of its own', () => {
  it.each([
    ['linux', {}, false, /no screen/],
    ['linux', { DISPLAY: ':0' }, true, /root/],
  ] as const)('cannot be had on %s with %j, root: %s', (platform, env, asRoot, why) => {
    expect(whyNoWindow({ platform, env, asRoot })).toMatch(why);
  });

  it.each([
    ['linux', { WAYLAND_DISPLAY: 'wayland-0' }],
    ['darwin', {}],
    ['win32', {}],
  ] as const)('can be had on %s with %j', (platform, env) => {
    expect(whyNoWindow({ platform, env, asRoot: false })).toBeNull();
  });
});
