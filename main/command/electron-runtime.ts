import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { z } from 'zod';

/** How long fetching the runtime may take before the browser host is the better help. */
const FETCH_LIMIT_MS = 90_000;
/** A failure to fetch it is believed for a day, so that an offline bench does not wait at every start. */
const FAILURE_KEPT_MS = 24 * 60 * 60_000;

export type ElectronRuntime =
  | { readonly kind: 'present'; readonly executable: string }
  | { readonly kind: 'absent'; readonly because: string };

export interface RuntimeOptions {
  /** The repository's folder. */
  readonly top: string;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly say: (line: string) => void;
}

/** Electron's runtime: where its installer put it, else fetched by that installer, once a day at most; else why there is none. */
export async function findOrFetchRuntime({ top, now, say }: RuntimeOptions): Promise<ElectronRuntime> {
  const home = join(top, 'node_modules', 'electron');
  const found = findRuntime(home);
  if (found !== null) return { kind: 'present', executable: found };
  const installer = join(home, 'install.js');
  if (!existsSync(installer)) return { kind: 'absent', because: 'Electron is not installed' };
  const memory = join(top, 'node_modules', '.cache', 'ohmward', 'electron-runtime.json');
  const failed = lastFailure(memory);
  if (failed !== null && now() - failed.at < FAILURE_KEPT_MS)
    return { kind: 'absent', because: failed.because };
  say('Fetching Electron’s runtime …');
  const because = await fetchRuntime(installer);
  const fetched = findRuntime(home);
  if (fetched !== null) return { kind: 'present', executable: fetched };
  mkdirSync(dirname(memory), { recursive: true });
  writeFileSync(memory, JSON.stringify({ at: now(), because }));
  return { kind: 'absent', because };
}

/** The installer writes `path.txt` last, so a runtime that was fetched by half is not taken for one. */
function findRuntime(home: string): string | null {
  const note = join(home, 'path.txt');
  if (!existsSync(note)) return null;
  const folder = process.env.ELECTRON_OVERRIDE_DIST_PATH ?? join(home, 'dist');
  const executable = join(folder, readFileSync(note, 'utf8').trim());
  return existsSync(executable) ? executable : null;
}

const failureSchema = z.strictObject({ at: z.number(), because: z.string() });

function lastFailure(memory: string): z.output<typeof failureSchema> | null {
  if (!existsSync(memory)) return null;
  try {
    return failureSchema.parse(JSON.parse(readFileSync(memory, 'utf8')));
  } catch {
    // Half written or of another make: as good as none.
    return null;
  }
}

/** Runs the installer, quietly. Gives the reason it failed with, in a few words. */
function fetchRuntime(installer: string): Promise<string> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [installer], {
      stdio: ['ignore', 'ignore', 'pipe'],
      timeout: FETCH_LIMIT_MS,
    });
    let complaint = '';
    child.stderr.on('data', (part: Buffer) => {
      complaint += part.toString();
    });
    child.on('error', (error) => resolve(error.message));
    child.on('close', (_status, signal) => {
      const line =
        complaint
          .split('\n')
          .find((one) => one.trim() !== '')
          ?.trim() ?? 'its installer failed';
      resolve(signal === null ? line.slice(0, 200) : `not fetched within ${FETCH_LIMIT_MS / 1000} s`);
    });
  });
}
