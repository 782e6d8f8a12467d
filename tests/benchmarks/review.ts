import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { statSync } from 'node:fs';
import { loadavg } from 'node:os';
import Sqlite from 'better-sqlite3';
import type { DuckDBConnection } from '@duckdb/node-api';
import { openFactReader } from '../../main/records/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { ALL_JOBS, type ReviewFilter } from '../../trees/review/index.ts';
import { bundledHost } from '../support/bundled-host.ts';
import { demoShop, type DemoShop } from '../support/demo-shop.ts';
import { differences, loadFacts, reviewFigures, sqlFigures } from '../support/duckdb/index.ts';
import type { PageGiven } from '../support/review-host.ts';
import type { Measure } from './measure.ts';

/** A smaller shop only to try the benchmark itself. */
const JOBS = Number(process.env['OHMWARD_REVIEW_JOBS'] ?? 1_000_000);
const UNTIL = Date.UTC(2026, 0, 31);
const ROUNDS = 7;
const TOLERANCE = 1e-9;

/**
 * The review's page over a million closed jobs made by the demo: from the question to the whole answer, through the services and
 * their thread in a process of their own, bundled as the app's main process is, opened three times. The first two are asked at once, while nothing is loaded: before
 * anything is known of the revisions, as on the day one is published, and on any day after. The third is left until the thread has
 * done beside the work what does not depend on a filter, which it begins 3 s after the opening, and then asked its first question,
 * and each change of the filter several times; that process' memory after all of them; and the same figures in SQL by an analytical database over the same rows, held to 1e-9 of each other.
 */
export default async function benchmark(): Promise<Measure[]> {
  const shop = await demoShop(JOBS, 1, UNTIL);
  forgetExpected(shop.file);
  const script = await bundledHost();
  const never = await askedAtOnce(script, shop.file);
  await restOnce(script, shop.file);
  const cold = await askedAtOnce(script, shop.file);
  const host = await openHost(script, shop.file);
  await host.rest();
  const first = await host.ask(ALL_JOBS);
  const filters = filtersOf(first);
  const times = new Map<string, PageGiven[]>(filters.map(([name]) => [name, []]));
  for (let round = 0; round < ROUNDS; round += 1)
    for (const [name, filter] of filters) times.get(name)?.push(await host.ask(filter));
  const last = times.get(LAST_FILTER)?.at(-1) ?? first;
  host.close();
  const sql = await openSql(shop.file);
  const inSql = new Map<string, number>();
  for (const [name, filter] of filters)
    inSql.set(name, await sql.compare(filter, times.get(name)?.[0] ?? first));
  sql.close();
  return [
    ...aboutShop(shop, first),
    { name: 'page, asked right after opening, nothing known of the trees yet', figure: never.ms, unit: 'ms' },
    { name: 'page, asked right after opening, nothing loaded yet', figure: cold.ms, unit: 'ms' },
    { name: 'page, asked first once warmed', figure: first.ms, unit: 'ms', limit: { atMost: 300 } },
    ...filters.flatMap(([name]) => pages(name, times.get(name) ?? [], inSql.get(name) ?? 0)),
    {
      name: 'memory of the process with the services',
      figure: last.rssMiB,
      unit: 'MiB',
      // 300 MB.
      limit: { atMost: 286 },
    },
    { name: 'the most it ever held', figure: last.mostMiB, unit: 'MiB' },
    { name: 'rows put into the SQL database (not in its times)', figure: sql.loadingMs, unit: 'ms' },
    { name: 'load of the machine, one minute', figure: loadavg()[0] ?? 0, unit: 'processes' },
  ];
}

/** As the demo has left it, whatever an earlier run of this has recorded since. */
function forgetExpected(file: string): void {
  const db = new Sqlite(file);
  db.exec('DELETE FROM expected_minutes');
  db.close();
}

/** Has it record what the revisions expect. */
async function restOnce(script: string, file: string): Promise<void> {
  const host = await openHost(script, file);
  await host.rest();
  host.close();
}

async function askedAtOnce(script: string, file: string): Promise<PageGiven> {
  const host = await openHost(script, file);
  const cold = await host.ask(ALL_JOBS);
  host.close();
  return cold;
}

function aboutShop({ file, made }: DemoShop, { page: { review } }: PageGiven): readonly Measure[] {
  const bytes = statSync(file).size / JOBS;
  const about: readonly Measure[] = [
    { name: 'closed jobs', figure: review.record.jobs, unit: 'jobs' },
    { name: 'database', figure: bytes, unit: 'bytes a job' },
  ];
  if (made === null) return about;
  return [
    ...about,
    { name: 'demo', figure: JOBS / made.seconds, unit: 'jobs/s' },
    { name: 'demo, processor time', figure: (1e6 * made.cpuSeconds) / JOBS, unit: 'µs a job' },
  ];
}

const LAST_FILTER = 'the last year';

/** The filters of the page, each narrowed to what most jobs have; the last keeps all jobs of a shop that is a year old. */
function filtersOf({ page: { review } }: PageGiven): readonly (readonly [string, ReviewFilter])[] {
  return [
    ['all jobs', ALL_JOBS],
    ['one tree', { ...ALL_JOBS, tree: review.byTree[0]?.id ?? null }],
    ['one board', { ...ALL_JOBS, board: review.byBoard[0]?.id ?? null }],
    ['one technician', { ...ALL_JOBS, technician: review.byTechnician[0]?.id ?? null }],
    ['half a year', { ...ALL_JOBS, from: '2025-05-01', to: '2025-10-31' }],
    [LAST_FILTER, { ...ALL_JOBS, from: '2025-02-01', to: '2026-01-31' }],
  ];
}

function pages(name: string, given: readonly PageGiven[], sqlMs: number): readonly Measure[] {
  const ms = median(given.map((one) => one.ms));
  const cpuMs = median(given.map((one) => one.cpuMs));
  return [
    {
      name: `filter changed to ${name}, median of ${String(ROUNDS)}`,
      figure: ms,
      unit: 'ms',
      limit: { atMost: 150 },
    },
    { name: `${name}, processor time`, figure: cpuMs, unit: 'ms' },
    { name: `${name}, the same figures in SQL`, figure: sqlMs, unit: 'ms' },
    {
      name: `${name}, ratio`,
      figure: ms / sqlMs,
      unit: '×',
      against: 'SQL over the same rows in the same run',
    },
  ];
}

async function openHost(script: string, file: string) {
  const child: ChildProcess = fork(script, [file, String(UNTIL)], { serialization: 'advanced' });
  await once(child, 'message');
  return {
    async ask(filter: ReviewFilter): Promise<PageGiven> {
      child.send({ filter });
      const [given] = (await once(child, 'message')) as [PageGiven];
      return given;
    },
    /** Until it has done what it does by itself. */
    async rest(): Promise<void> {
      child.send({ filter: null });
      await once(child, 'message');
    },
    close: () => child.disconnect(),
  };
}

async function openSql(file: string) {
  const start = performance.now();
  const reader = openFactReader(file);
  const trees = reader.current().flatMap(({ revisionId }) => {
    const { tree } = readAndCheck(reader.bytesOf(revisionId));
    return tree ?? [];
  });
  const connection: DuckDBConnection = await loadFacts(reader.facts(), trees);
  reader.close();
  const loadingMs = performance.now() - start;
  return {
    loadingMs,
    /** Milliseconds that all figures take in SQL. Throws where one is not that of the page. */
    async compare(filter: ReviewFilter, { page: { review } }: PageGiven): Promise<number> {
      const times: number[] = [];
      for (let round = 0; round < 3; round += 1) {
        const from = performance.now();
        const figures = await sqlFigures(connection, filter, review.asOf);
        times.push(performance.now() - from);
        const differing = differences(reviewFigures(review), figures, TOLERANCE);
        if (differing.length > 0) throw new Error(`review: ${differing.slice(0, 5).join('; ')}`);
      }
      return median(times);
    },
    close: () => connection.closeSync(),
  };
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
