import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ohmward = fileURLToPath(new URL('../../main/command/ohmward.ts', import.meta.url));

/** Fills a new database with an invented shop's jobs, the same for the same seed, as `ohmward demo` does. */
export function inventJobs(file: string, jobs: number, seed: number): void {
  const options = ['--db', file, '--jobs', String(jobs), '--seed', String(seed)];
  execFileSync(process.execPath, [ohmward, 'demo', ...options], { stdio: 'ignore' });
}
