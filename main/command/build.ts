import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout } from 'node:timers/promises';

const SOURCES = ['app', 'main', 'trees', 'electron.config.ts', 'package.json'];
const BUILT = ['out/main/index.js', 'out/preload/index.cjs', 'out/renderer/index.html'];

export type Built =
  { readonly ok: true } | { readonly ok: false; readonly message: string; readonly help: string };

/**
 * Builds the app where it has not been built or its sources have changed since. `top` is the repository's folder; `say` gets one
 * line before a build and one after it.
 */
export async function ensureBuilt(top: string, say: (line: string) => void): Promise<Built> {
  const tool = join(top, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js');
  // An installed copy comes without the build tool and is as built as it gets.
  if (isUpToDate(top) || (isThere(top) && !existsSync(tool))) return { ok: true };
  if (!existsSync(tool)) {
    return {
      ok: false,
      message: 'Ohmward is not built, and the build tool is not installed.',
      help: 'Run npm ci.',
    };
  }
  const lock = await takeTurn(join(top, 'node_modules', '.cache', 'ohmward', 'build.lock'));
  try {
    return isUpToDate(top) ? { ok: true } : await build(top, tool, say);
  } finally {
    rmSync(lock);
  }
}

async function build(top: string, tool: string, say: (line: string) => void): Promise<Built> {
  say('Building Ohmward, since its sources have changed …');
  const from = performance.now();
  const { status, output } = await run(
    [tool, 'build', '-c', 'electron.config.ts', '--logLevel', 'warn'],
    top,
  );
  if (status !== 0)
    return {
      ok: false,
      message: `Ohmward could not be built:\n${output}`,
      help: 'Mend that, or run npm ci.',
    };
  say(`Built in ${((performance.now() - from) / 1000).toFixed(1)} s.`);
  return { ok: true };
}

/** Two starts at once must not build over each other. A lock whose owner is gone is taken over. Gives the lock, to be removed. */
async function takeTurn(lock: string): Promise<string> {
  mkdirSync(dirname(lock), { recursive: true });
  for (;;) {
    try {
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      return lock;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
      if (isLeftOver(lock)) rmSync(lock, { force: true });
      else await setTimeout(200);
    }
  }
}

function isLeftOver(lock: string): boolean {
  try {
    process.kill(Number(readFileSync(lock, 'utf8')), 0);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ESRCH';
  }
}

const isThere = (top: string): boolean => BUILT.every((file) => existsSync(join(top, file)));

function isUpToDate(top: string): boolean {
  if (!isThere(top)) return false;
  const built = Math.min(...BUILT.map((file) => statSync(join(top, file)).mtimeMs));
  return SOURCES.every((source) => newest(join(top, source)) <= built);
}

/** When anything in here last changed, in milliseconds. A folder's own time tells of files that were taken away. */
function newest(path: string): number {
  const { mtimeMs } = statSync(path);
  if (!statSync(path).isDirectory()) return mtimeMs;
  return readdirSync(path).reduce((latest, name) => Math.max(latest, newest(join(path, name))), mtimeMs);
}

function run(
  args: readonly string[],
  cwd: string,
): Promise<{ readonly status: number; readonly output: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    const keep = (part: Buffer): void => {
      output += part.toString();
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.on('error', reject);
    child.on('close', (status) => resolve({ status: status ?? 1, output }));
  });
}
