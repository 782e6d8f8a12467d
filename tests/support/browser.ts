import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from '@playwright/test';

/** A browser to test in: found at a path, or the one Playwright downloads (no path), or none and what to do. */
export type TestBrowser =
  | { readonly kind: 'found'; readonly executablePath?: string }
  | { readonly kind: 'none'; readonly help: string };

const NAMES = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'brave-browser',
];
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/**
 * Finds a Chromium-family browser on the machine; else has Playwright download its own; else, as root on Debian,
 * installs the distribution's; else says what to do. Never a skip.
 */
export async function findOrInstallBrowser(): Promise<TestBrowser> {
  const system = systemBrowser();
  if (system !== undefined) return { kind: 'found', executablePath: system };
  if (existsSync(chromium.executablePath()) || download()) return { kind: 'found' };
  if (install()) {
    const installed = systemBrowser();
    if (installed !== undefined) return { kind: 'found', executablePath: installed };
  }
  return {
    kind: 'none',
    help:
      'no browser to test in: none was found, Playwright could not download its own, and it could not be installed by apt-get as root. ' +
      'Install Chromium, Chrome or Edge, or name one in OHMWARD_TEST_BROWSER, and run npm test again.',
  };
}

/** The path of a Chromium-family browser on this machine, if there is one. `OHMWARD_TEST_BROWSER` comes first. */
export function systemBrowser(): string | undefined {
  const named = process.env['OHMWARD_TEST_BROWSER'];
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  const candidates = [
    ...(named === undefined ? [] : [named]),
    ...NAMES.flatMap((name) => folders.map((folder) => join(folder, name))),
    ...PLACES,
  ];
  return candidates.find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function download(): boolean {
  console.log('No system browser found; asking Playwright to download its own (three minutes at most) …');
  const command = join(import.meta.dirname, '../../node_modules/.bin/playwright');
  const result = spawnSync(command, ['install', 'chromium'], { stdio: 'inherit', timeout: 180_000 });
  return result.status === 0 && existsSync(chromium.executablePath());
}

function install(): boolean {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return false;
  console.log('Installing the distribution’s Chromium by apt-get …');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const apt = (...args: string[]) =>
    spawnSync('apt-get', ['-y', '-qq', ...args], { stdio: 'inherit', env, timeout: 600_000 });
  apt('update');
  return apt('install', 'chromium').status === 0;
}
