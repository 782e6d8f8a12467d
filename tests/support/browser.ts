import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser } from '@playwright/test';
import { findBrowser } from '../../main/loopback/index.ts';

/** A browser to test in: found at a path, or the one Playwright downloads (no path), or none and what to do. */
export type TestBrowser =
  | { readonly kind: 'found'; readonly executablePath?: string }
  | { readonly kind: 'none'; readonly help: string };

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

/** Starts a browser to test in; throws with what to do where there is none. */
export async function launchBrowser(): Promise<Browser> {
  const found = await findOrInstallBrowser();
  if (found.kind === 'none') throw new Error(found.help);
  const { executablePath } = found;
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({ ...(executablePath === undefined ? {} : { executablePath }), args });
}

/** The path of a Chromium-family browser on this machine, if there is one. `OHMWARD_TEST_BROWSER` comes first. */
export function systemBrowser(): string | undefined {
  const named = process.env['OHMWARD_TEST_BROWSER'] ?? process.env['OHMWARD_BROWSER'];
  const env = named === undefined ? process.env : { ...process.env, OHMWARD_BROWSER: named };
  return findBrowser({ platform: process.platform, env }) ?? undefined;
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
