import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { ReviewPage } from '../../main/contract/index.ts';
import { answer } from '../../main/services/answer.ts';
import { openReviewer } from '../../main/services/review/index.ts';
import type { Review, ReviewFilter } from '../../trees/review/index.ts';
import { run, scratch } from './command-line.ts';

const folder = scratch();
const shop = join(folder, 'shop.sqlite');

type Printed = Review & { readonly filter: ReviewFilter } & Pick<ReviewPage, 'names' | 'invented'>;

/** The review of all jobs. */
let all: Awaited<ReturnType<typeof reviewed>>;

beforeAll(async () => {
  const made = await run('demo', '--db', shop, '--jobs', '60', '--seed', '4', '--until', '2026-11-20');
  expect(made.status, made.text).toBe(0);
  all = await reviewed();
}, 180_000);

async function reviewed(...more: readonly string[]) {
  const { status, text, json } = await run('review', '--db', shop, ...more);
  expect(status, text).toBe(0);
  return { text, json: json as Printed };
}

/** A copy of the shop's file, changed by some SQL. */
function changed(name: string, sql: string): string {
  const file = join(folder, name);
  copyFileSync(shop, file);
  new Sqlite(file).exec(sql).close();
  return file;
}

describe('review', () => {
  it(
    'has the figures that the services answer, for the same filter and moment',
    { timeout: 60_000 },
    async () => {
      const { json } = await reviewed('--from', '2026-01-01', '--to', '2026-10-31', '--tree', 'kw1-panel');
      const { filter, names, invented, ...figures } = json;
      const reviewer = openReviewer({ file: shop, ready: () => answer(null) });
      onTestFinished(() => reviewer.end());
      const given = await reviewer.ask({ kind: 'figures', filter, now: json.asOf });
      if (given?.ok !== true) throw new Error('no answer');
      expect(figures.jobs).toBeGreaterThan(5);
      expect(figures).toEqual(given.value.review);
      expect({ names, invented }).toEqual({ names: given.value.names, invented: true });
    },
  );

  it('prints the promised fields as JSON, those that are asked for most first', () => {
    const { json } = all;
    expect(Object.keys(json).slice(0, 7)).toEqual([
      'jobs',
      'firstTimeFix',
      'comebackFree',
      'byFinding',
      'byMonth',
      'branches',
      'calibration',
    ]);
    const numbers = (...names: readonly string[]) =>
      Object.fromEntries(names.map((name) => [name, expect.any(Number)]));
    expect(json.firstTimeFix).toMatchObject(numbers('fixed', 'closed', 'rate', 'low', 'high'));
    expect(json.comebackFree[0]).toMatchObject(numbers('days', 'atRisk', 'survival', 'low', 'high'));
    expect(json.byMonth[0]).toMatchObject({
      month: expect.stringMatching(/^\d{4}-\d{2}$/),
      outOfControl: expect.any(Boolean),
      ...numbers('closed', 'fixed', 'low', 'high'),
    });
    expect(json.calibration).toMatchObject(numbers('brier', 'reliability', 'resolution', 'uncertainty'));
    expect(json.calibration.bins.length).toBeGreaterThan(0);
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });

  it('counts the closed jobs that the database has', () => {
    const db = new Sqlite(shop, { readonly: true });
    const closed = db.prepare('SELECT count(*) FROM job_status WHERE outcome IS NOT NULL').pluck().get();
    db.close();
    const { json } = all;
    expect(json.jobs).toBe(closed);
    expect(json.byMonth.reduce((sum, month) => sum + month.closed, 0)).toBe(closed);
  });

  it('narrows to a technician by name, in any case, and to a board', async () => {
    const { json } = all;
    const [technician] = json.byTechnician;
    const name = json.names.technicians[technician?.id ?? ''] ?? '';
    const hers = await reviewed('--technician', name.toUpperCase());
    expect(hers.json.jobs).toBe(technician?.closed);
    expect(hers.text).toContain(`technician ${name}`);
    const [board] = json.byBoard;
    expect((await reviewed('--board', board?.id ?? '')).json.jobs).toBe(board?.closed);
  });

  it('reads as a report: every rate with its count, its interval or that there are too few', () => {
    const { text, json } = all;
    const { fixed, closed, rate, low, high } = json.firstTimeFix;
    const percent = (share: number) => (100 * share).toFixed(1);
    expect(text).toContain(
      `${fixed} of ${closed}  ${percent(rate)} %  ${percent(low)} to ${percent(high)} %  all`,
    );
    expect(text).toContain('too few to say');
    expect(text).toContain('invented by the demo');
    for (const title of [
      'By month',
      'Kaplan-Meier',
      'Outcomes',
      'Where the hours go',
      'Brier score',
      'advice',
    ])
      expect(text).toContain(title);
    expect(text).not.toMatch(/NaN|undefined|null|\[object/);
  });

  it('says of a filter that leaves no job that there is nothing to say', async () => {
    const { text, json } = await reviewed('--to', '1999-12-31');
    expect(json.jobs).toBe(0);
    expect(text).toContain('there is nothing to say yet');
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it('leaves the database as it was', async () => {
    const before = readFileSync(shop);
    await reviewed('--tree', 'kw1-usb-charge');
    expect(readFileSync(shop).equals(before)).toBe(true);
  });
});

describe('review asked in a wrong way', () => {
  it.each([
    [['--from', '2026-02-30'], 'YYYY-MM-DD'],
    [['--to', 'friday'], 'YYYY-MM-DD'],
    [['--from', '2026-02-02', '--to', '2026-02-01'], 'is after'],
    [['--window', '0'], '1 to 730'],
    [['--window', '1e2'], '1 to 730'],
    [['--tree', 'kw9'], 'kw1-panel, kw1-usb-charge'],
    [['--board', 'Z9'], 'A2, B1, C1'],
    [['--board', 'C1', '--tree', 'kw1-panel'], 'A2, B1'],
    [['--technician', 'Nobody'], 'Mara Quill'],
    [['--technician', '019aa613-297e-7446-b5bb-000000000000'], 'Mara Quill'],
    [['extra'], '--db FILE'],
  ])('by %j is refused with status 2 and told what there is', async (argv, told) => {
    const { status, text } = await run('review', '--db', shop, ...argv);
    expect(text).toContain(told);
    expect(status).toBe(2);
  });

  it('without a database, or with one that is not there, is refused with status 2 and makes none', async () => {
    expect((await run('review')).status).toBe(2);
    const nowhere = join(folder, 'nowhere.sqlite');
    expect((await run('review', '--db', nowhere)).status).toBe(2);
    expect(existsSync(nowhere)).toBe(false);
  });
});

describe('review of a file that it cannot read', () => {
  const codeOf = async (file: string) => {
    const { status, json } = await run('review', '--db', file);
    return [status, (json as { error?: { code: string } }).error?.code];
  };

  it('says of somebody else’s file that it is none of ours, and leaves it as it is', async () => {
    const text = join(folder, 'text.sqlite');
    writeFileSync(text, 'not a database, '.repeat(100));
    expect(await codeOf(text)).toEqual([1, 'NOT_A_DATABASE']);
    expect(readFileSync(text, 'utf8')).toBe('not a database, '.repeat(100));
    const other = join(folder, 'other.sqlite');
    new Sqlite(other).exec('CREATE TABLE other (a INTEGER)').close();
    expect(await codeOf(other)).toEqual([1, 'NOT_A_DATABASE']);
  });

  it('says of a newer or an older database what to do', async () => {
    expect(await codeOf(changed('newer.sqlite', 'PRAGMA user_version = 9999'))).toEqual([
      1,
      'NEWER_DATABASE',
    ]);
    expect(await codeOf(changed('older.sqlite', 'PRAGMA user_version = 3'))).toEqual([1, 'OLDER_DATABASE']);
    const empty = join(folder, 'empty-tables.sqlite');
    new Sqlite(empty).exec('PRAGMA user_version = 0; VACUUM').close();
    expect((await codeOf(empty))[1]).toBe('OLDER_DATABASE');
  });

  it('says where what is kept of closed jobs is not complete yet, and takes it once rebuild made it so', async () => {
    const file = changed('making.sqlite', 'UPDATE fact_state SET made_to = -1');
    const { status, json, text } = await run('review', '--db', file);
    expect([status, json]).toMatchObject([1, { error: { code: 'NOT_COMPLETE' } }]);
    expect(text).toContain('rebuild');
    await run('rebuild', '--db', file);
    expect((await run('review', '--db', file)).status).toBe(0);
  });
});
