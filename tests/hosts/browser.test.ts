import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findBrowser, openBrowser } from '../../main/loopback/index.ts';
import { folder } from './loopback-support.ts';

function program(file: string, mode = 0o755): string {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, '#!/bin/sh\n');
  chmodSync(file, mode);
  return file;
}

describe.skipIf(process.platform === 'win32')('finding a browser', () => {
  it('takes the first of the usual names that stands anywhere on the path', () => {
    const [one, two] = [folder(), folder()];
    program(join(one, 'vivaldi'));
    const edge = program(join(two, 'microsoft-edge'));
    const env = { PATH: [one, two].join(delimiter) };
    expect(findBrowser({ platform: 'linux', env })).toBe(edge);
  });

  it('passes over what cannot be run, and over folders', () => {
    const bin = folder();
    program(join(bin, 'chromium'), 0o644);
    mkdirSync(join(bin, 'google-chrome'));
    const brave = program(join(bin, 'brave-browser'));
    expect(findBrowser({ platform: 'linux', env: { PATH: bin } })).toBe(brave);
  });

  it('takes the named one before all others, and none if that cannot be run', () => {
    const bin = folder();
    program(join(bin, 'chromium'));
    const own = program(join(bin, 'own'));
    expect(findBrowser({ platform: 'linux', env: { PATH: bin, OHMWARD_BROWSER: own } })).toBe(own);
    expect(
      findBrowser({ platform: 'linux', env: { PATH: bin, OHMWARD_BROWSER: join(bin, 'gone') } }),
    ).toBeNull();
  });

  it('finds none on an empty path', () => {
    expect(findBrowser({ platform: 'linux', env: { PATH: folder() } })).toBeNull();
  });

  it('looks into the person’s own applications on macOS', () => {
    const home = folder();
    const found = program(join(home, 'Applications', 'Vivaldi.app', 'Contents', 'MacOS', 'Vivaldi'));
    expect(findBrowser({ platform: 'darwin', env: { HOME: home } })).toBe(found);
  });

  it('looks into each program folder on Windows', () => {
    const [all, own] = [folder(), folder()];
    const found = program(join(own, 'Microsoft', 'Edge', 'Application', 'msedge.exe'));
    expect(findBrowser({ platform: 'win32', env: { PROGRAMFILES: all, LOCALAPPDATA: own } })).toBe(found);
  });
});

describe('opening a browser', () => {
  it('says why when the program cannot be started', async () => {
    const browser = join(folder(), 'gone');
    const why = await openBrowser({
      browser,
      profile: folder(),
      address: 'http://127.0.0.1:1/',
      asRoot: false,
    });
    expect(why).toContain('ENOENT');
  });
});
