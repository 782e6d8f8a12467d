import { existsSync, mkdirSync, realpathSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { databaseFile, userDataFolder } from '../../main/services/index.ts';
import { folder } from './loopback-support.ts';

describe('the user-data folder', () => {
  it.each([
    ['linux', {}, '/home/ada/.local/share/Ohmward'],
    ['linux', { XDG_DATA_HOME: '/data' }, '/data/Ohmward'],
    ['linux', { XDG_DATA_HOME: 'relative/is/invalid' }, '/home/ada/.local/share/Ohmward'],
    ['darwin', { XDG_DATA_HOME: '/data' }, '/home/ada/Library/Application Support/Ohmward'],
    ['win32', { APPDATA: '/roaming' }, '/roaming/Ohmward'],
    ['win32', {}, '/home/ada/AppData/Roaming/Ohmward'],
  ] as const)('is by the custom of %s with %j', (platform, env, expected) => {
    expect(userDataFolder({ platform, env, home: '/home/ada' }).replaceAll('\\', '/')).toBe(expected);
  });
});

describe.skipIf(process.platform === 'win32')('the database', () => {
  const machine = (home: string) => ({ platform: 'linux' as const, env: {}, home });

  it('is in the user-data folder, which is made for its owner alone', () => {
    const home = realpathSync(folder());
    const file = databaseFile(undefined, machine(home));
    expect(file).toBe(join(home, '.local', 'share', 'Ohmward', 'ohmward.sqlite'));
    expect(statSync(join(file, '..')).mode & 0o777).toBe(0o700);
    expect(existsSync(file)).toBe(false);
  });

  it('has one name, whichever links lead to it', () => {
    const top = realpathSync(folder());
    mkdirSync(join(top, 'real'));
    symlinkSync(join(top, 'real'), join(top, 'link'));
    const before = databaseFile(join(top, 'link', 'shop.sqlite'), machine(top));
    writeFileSync(before, '');
    symlinkSync(before, join(top, 'also.sqlite'));
    expect(before).toBe(join(top, 'real', 'shop.sqlite'));
    expect(databaseFile(join(top, 'also.sqlite'), machine(top))).toBe(before);
  });
});
