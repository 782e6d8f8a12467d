import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { beforeAll, describe, expect, it } from 'vitest';
import { inShell, run, scratch } from './command-line.ts';

const folder = scratch();
const panel = new URL('../../trees/library/kw1-panel.tree.json', import.meta.url).pathname;
const shop = join(folder, 'shop.sqlite');

async function demo(file: string, ...more: readonly string[]) {
  return run('demo', '--db', file, '--jobs', '40', '--seed', '11', '--until', '2026-11-20', ...more);
}

beforeAll(async () => {
  expect((await demo(shop)).status).toBe(0);
}, 120_000);

describe('demo', () => {
  it('marks every job as invented', () => {
    const db = new Sqlite(shop, { readonly: true });
    expect(db.prepare('SELECT count(*) AS jobs, sum(invented) AS invented FROM job').get()).toEqual({
      jobs: 40,
      invented: 40,
    });
    db.close();
  });

  it('makes the same jobs from the same seed and day', async () => {
    const again = join(folder, 'again.sqlite');
    await demo(again);
    const events = (file: string) => {
      const db = new Sqlite(file, { readonly: true });
      const rows = db.prepare('SELECT id, job_id, seq, at, kind, body FROM job_event ORDER BY id').all();
      db.close();
      return rows;
    };
    expect(events(again)).toEqual(events(shop));
  });

  it('leaves a database alone that holds invented jobs already', async () => {
    const { status, json } = await demo(shop);
    expect(json).toMatchObject({ error: { code: 'DEMO_THERE' } });
    expect(status).toBe(1);
  });

  it.each([
    ['--jobs', '0'],
    ['--jobs', '1.5'],
    ['--jobs', 'many'],
    ['--seed', '-1'],
    ['--until', '2026-02-30'],
  ])('refuses %s %s with status 2 and makes nothing', async (option, given) => {
    const file = join(folder, 'never.sqlite');
    const { status } = await run('demo', '--db', file, '--jobs', '3', '--seed', '1', `${option}=${given}`);
    expect(status).toBe(2);
    expect(existsSync(file)).toBe(false);
  });
});

describe('belief on a shop’s records', () => {
  it('follows the history: the jobs it names are those in the database', async () => {
    const { json } = await run('belief', panel, '--symptom', 'no-power-led', '--db', shop);
    const { findings } = json as { findings: { id: string; probability: number; jobs: number }[] };
    const db = new Sqlite(shop, { readonly: true });
    const closed = db
      .prepare(
        `SELECT finding AS id, count(*) AS jobs FROM job_status JOIN job ON job.id = job_id
         WHERE tree_id = 'kw1-panel' AND symptom = 'no-power-led' AND outcome = 'fixed' GROUP BY finding`,
      )
      .all() as { id: string; jobs: number }[];
    db.close();
    expect(closed.length).toBeGreaterThan(0);
    const named = findings.filter(({ jobs }) => jobs > 0).map(({ id, jobs }) => ({ id, jobs }));
    expect(named.sort((a, b) => a.id.localeCompare(b.id))).toEqual(
      closed.sort((a, b) => a.id.localeCompare(b.id)),
    );
    expect(findings.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
  });

  it('refuses an empty file, a file of somebody else’s and a newer database, and leaves them as they are', async () => {
    const empty = join(folder, 'empty.sqlite');
    writeFileSync(empty, '');
    expect((await run('belief', panel, '--symptom', 'no-power-led', '--db', empty)).status).toBe(2);
    expect(statSync(empty).size).toBe(0);
    const text = join(folder, 'text.sqlite');
    writeFileSync(text, 'not a database, '.repeat(100));
    const foreign = await run('belief', panel, '--symptom', 'no-power-led', '--db', text);
    expect([foreign.status, foreign.json]).toEqual([
      1,
      { error: expect.objectContaining({ code: 'NOT_A_DATABASE' }) },
    ]);
    expect(readFileSync(text, 'utf8')).toBe('not a database, '.repeat(100));
  });
});

describe('rebuild', () => {
  it('finds nothing to differ in a shop’s own records, with status 0', async () => {
    const { status, json } = await run('rebuild', '--db', shop);
    expect(json).toEqual({ file: shop, jobs: 40, differed: false, tables: [], halted: [] });
    expect(status).toBe(0);
  });

  it('says which counts had differed, with status 1, and mends them', async () => {
    const spoilt = join(folder, 'spoilt.sqlite');
    await demo(spoilt);
    const db = new Sqlite(spoilt);
    db.exec('UPDATE finding_count SET jobs = jobs + 1');
    db.close();
    expect(await run('rebuild', '--db', spoilt)).toMatchObject({
      status: 1,
      json: { differed: true, tables: ['finding_count'] },
    });
    expect(await run('rebuild', '--db', spoilt)).toMatchObject({ status: 0, json: { differed: false } });
  });

  it('refuses a database that is not there, and makes none', async () => {
    const file = join(folder, 'nowhere.sqlite');
    expect((await run('rebuild', '--db', file)).status).toBe(2);
    expect(existsSync(file)).toBe(false);
  });
});

describe('output that cannot be written', () => {
  it.runIf(existsSync('/dev/full'))('ends with status 1 and says so, without a stack trace', () => {
    const { status, stderr } = inShell(`check "${panel}" > /dev/full`);
    expect(stderr).toMatch(/^The answer could not be written: [^\n]*\n$/);
    expect(status).toBe(1);
  });
});
