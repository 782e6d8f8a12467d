import { copyFileSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient } from '@orpc/server';
import { openServices } from '../../main/services/index.ts';
import { demoShop } from '../support/demo-shop.ts';
import type { Measure } from './measure.ts';

const JOBS = 100_000;
const ROUNDS = 25;
const UNTIL = Date.UTC(2026, 0, 31);
/** The demo's last jobs are still on the bench. */
const LEFT_OPEN = 4;

/**
 * Opening the records and all that the app asks for at its start (the shop, the trees, the first pages of open and closed
 * jobs), with 100,000 closed jobs against none, taking turns in one run. The full check runs beside it in both.
 */
export default async function benchmark(): Promise<Measure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  try {
    const empty = join(folder, 'empty.sqlite');
    const full = join(folder, 'full.sqlite');
    copyFileSync((await demoShop(0, 1, UNTIL)).file, empty);
    copyFileSync((await demoShop(JOBS, 1, UNTIL)).file, full);
    const closedJobs = JOBS - LEFT_OPEN;
    const times: { readonly empty: number[]; readonly full: number[] } = { empty: [], full: [] };
    for (let round = -2; round < ROUNDS; round += 1) {
      const none = await openingMs(empty, 0);
      const many = await openingMs(full, closedJobs);
      if (round < 0) continue;
      times.empty.push(none);
      times.full.push(many);
    }
    return measures(median(times.empty), median(times.full), closedJobs, statSync(full).size);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function measures(none: number, many: number, closedJobs: number, bytes: number): Measure[] {
  return [
    { name: 'database of the full shop', figure: bytes / 2 ** 20, unit: 'MiB' },
    { name: 'opening with no jobs', figure: none, unit: 'ms' },
    { name: `opening with ${String(closedJobs)} closed jobs`, figure: many, unit: 'ms' },
    {
      name: 'ratio of the medians',
      figure: many / none,
      unit: '×',
      limit: { atMost: 1.3 },
      against: 'opening with no jobs in the same run',
    },
  ];
}

/** Milliseconds until the app has what it asks for first. Checks that it is the shop that was meant. */
async function openingMs(file: string, closedJobs: number): Promise<number> {
  const start = performance.now();
  const services = await openServices({ file, host: 'loopback' });
  const client = createRouterClient(services.router);
  const shop = await inTurn(() => client.shop.open());
  const trees = await inTurn(() => client.trees.list());
  const open = await inTurn(() => client.jobs.list({ status: 'open' }));
  const closed = await inTurn(() => client.jobs.list({ status: 'closed' }));
  const took = performance.now() - start;
  const right = shop.state === 'ready' && shop.closedJobs === closedJobs && trees.length > 0;
  if (!right || closed.jobs.length !== Math.min(50, closedJobs))
    throw new Error('open-app: another shop was opened');
  if (open.jobs.length !== (closedJobs > 0 ? LEFT_OPEN : 0))
    throw new Error('open-app: the open jobs are not those of the demo');
  await services.close();
  return took;
}

/** Each question comes in a turn of its own, as from a host, so that the full check has started before the first. */
async function inTurn<T>(ask: () => Promise<T>): Promise<T> {
  await new Promise((resolve) => setImmediate(resolve));
  return ask();
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
