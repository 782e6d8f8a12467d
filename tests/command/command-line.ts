import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { carryOut } from '../../main/command/carry-out.ts';

const entry = fileURLToPath(new URL('../../main/command/ohmward.ts', import.meta.url));

/** A folder of its own for one test file. */
export function scratch(): string {
  return mkdtempSync(join(tmpdir(), 'ohmward-command-'));
}

/** Writes a document as JSON and gives its path. */
export function written(folder: string, name: string, document: unknown): string {
  const file = join(folder, name);
  writeFileSync(file, typeof document === 'string' ? document : JSON.stringify(document));
  return file;
}

/** Runs a command line in this process; `json` is what `--json` would print. */
export async function run(...argv: readonly string[]) {
  return carryOut([...argv, '--json']);
}

/** Runs a command line as its own process. */
export function spawned(...argv: readonly string[]) {
  return spawnSync(process.execPath, [entry, ...argv], { encoding: 'utf8' });
}

/** Runs a command line as its own process with no more than so many MiB for what it keeps. */
export function spawnedWithin(mebibytes: number, ...argv: readonly string[]) {
  const limit = `--max-old-space-size=${String(mebibytes)}`;
  return spawnSync(process.execPath, [limit, entry, ...argv], { encoding: 'utf8' });
}

/** Runs the command line in a shell, for what only a shell can do: `rest` is what follows the command's path. */
export function inShell(rest: string) {
  return spawnSync(`"${process.execPath}" "${entry}" ${rest}`, { encoding: 'utf8', shell: true });
}
