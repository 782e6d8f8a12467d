import { spawn } from 'node:child_process';
import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** The machine, as far as finding a browser goes. */
export interface Machine {
  readonly platform: NodeJS.Platform;
  readonly env: NodeJS.ProcessEnv;
}

/**
 * The machine's Chromium-family browser: the one that `OHMWARD_BROWSER` names, else the first of the usual ones that can be
 * run. `null` where there is none.
 */
export function findBrowser({ platform, env }: Machine): string | null {
  const named = env.OHMWARD_BROWSER;
  if (named !== undefined && named !== '') return isProgram(named) ? named : null;
  return candidates(platform, env).find(isProgram) ?? null;
}

export interface Browsing {
  readonly browser: string;
  /** Where the browser keeps this app's profile, apart from the person's own. */
  readonly profile: string;
  readonly address: string;
  /** Chromium's sandbox does not run for root, so for root it has to be left off. */
  readonly asRoot: boolean;
}

/** A browser that is up after this long is taken to have opened. */
const UP_AFTER_MS = 3_000;

/**
 * Opens an app window that outlives this process. Gives `null` once it is open, be it in a browser that ran already, else why it
 * did not open.
 */
export function openBrowser({ browser, profile, address, asRoot }: Browsing): Promise<string | null> {
  const flags = [
    `--app=${address}`,
    `--user-data-dir=${profile}`,
    ...QUIET,
    ...(asRoot ? ['--no-sandbox'] : []),
  ];
  const child = spawn(browser, flags, { detached: true, stdio: 'ignore' });
  child.unref();
  return new Promise((resolve) => {
    const up = setTimeout(() => resolve(null), UP_AFTER_MS);
    const settle = (failure: string | null): void => {
      clearTimeout(up);
      resolve(failure);
    };
    child.on('error', (error) => settle(error.message));
    child.on('exit', (status, signal) =>
      settle(status === 0 ? null : `it ended with ${signal ?? `status ${status}`}`),
    );
  });
}

const QUIET = [
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

const ON_LINUX = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
  'brave-browser',
  'vivaldi',
  'vivaldi-stable',
];

const ON_MACOS = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser', 'Vivaldi'];

const ON_WINDOWS = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
  ['BraveSoftware', 'Brave-Browser', 'Application', 'brave.exe'],
  ['Vivaldi', 'Application', 'vivaldi.exe'],
];

function candidates(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): readonly string[] {
  if (platform === 'darwin') {
    const folders = ['/Applications', ...(env.HOME === undefined ? [] : [join(env.HOME, 'Applications')])];
    return ON_MACOS.flatMap((name) =>
      folders.map((folder) => join(folder, `${name}.app`, 'Contents', 'MacOS', name)),
    );
  }
  if (platform === 'win32') {
    const folders = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter(
      (folder) => folder !== undefined,
    );
    return ON_WINDOWS.flatMap((path) => folders.map((folder) => join(folder, ...path)));
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return ON_LINUX.flatMap((name) => folders.map((folder) => join(folder, name)));
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}
