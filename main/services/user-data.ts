import { existsSync, mkdirSync, realpathSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';

/** The machine, as far as finding the user-data folder goes. */
export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: NodeJS.ProcessEnv;
  /** The person's home folder. */
  readonly home: string;
}

/** Where this person's Ohmward keeps its data on this machine, by the platform's custom. Nothing is created. */
export function userDataFolder({ platform, env, home }: Machine): string {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', NAME);
  if (platform === 'win32') return join(env.APPDATA ?? join(home, 'AppData', 'Roaming'), NAME);
  // The XDG base directory specification: a relative path is invalid and to be ignored.
  const shared = env.XDG_DATA_HOME ?? '';
  return join(shared.startsWith('/') ? shared : join(home, '.local', 'share'), NAME);
}

const NAME = 'Ohmward';

/**
 * The database to work with: `given` (`--db FILE`), else the one in the user-data folder. Creates its folder, readable by this
 * person only, and gives the path without symbolic links, so that one database has one name. Throws what the file system says if
 * the folder cannot be made.
 */
export function databaseFile(given: string | undefined, machine: Machine): string {
  const file = resolve(given ?? join(userDataFolder(machine), 'ohmward.sqlite'));
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  return existsSync(file) ? realpathSync(file) : join(realpathSync(dirname(file)), basename(file));
}
