import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { openRecords, type Records } from '../../main/records/index.ts';
import { append } from '../../main/services/index.ts';
import { createWalks } from '../../main/services/walks.ts';
import { makeDemo } from '../../main/services/demo/make-demo.ts';
import type { JobFact } from '../../trees/review/index.ts';
import { recordedFacts } from '../support/recorded-facts.ts';
import { openShop, recordsOf } from '../support/temp-shop.ts';

/** A shop of closed jobs as it was before there were facts, and the facts it should have. */
async function formerShop(jobs: number) {
  const shop = await openShop();
  const made = makeDemo({ records: recordsOf(shop), jobs, seed: 3, until: Date.UTC(2026, 0, 31) });
  if (!made.ok) throw new Error(made.message);
  const facts = recordedFacts(shop.file);
  await shop.services.close();
  const db = new Sqlite(shop.file);
  db.exec(`DROP TABLE belief_shown; DROP TABLE fact_block; DROP TABLE fact_name; DROP TABLE way; DROP TABLE fact_state;
    DROP INDEX job_by_unit; CREATE INDEX job_by_serial ON job (serial COLLATE NOCASE);
    DROP TABLE expected_minutes; DELETE FROM migration WHERE number >= 4; PRAGMA user_version = 3`);
  db.close();
  const expected = new Map([...facts].map(([jobId, fact]) => [jobId, shownNothing(fact)]));
  return { file: shop.file, expected };
}

/** What was shown is not known of the jobs from before it was recorded. */
function shownNothing(fact: JobFact): JobFact {
  return { ...fact, shown: [], confirmed: null };
}

function open(file: string): Records {
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  onTestFinished(() => opening.records.close());
  return opening.records;
}

describe('records from before there were facts', () => {
  it('get them beside the work once they are opened', async () => {
    const { file, expected } = await formerShop(60);
    expect(expected.size).toBeGreaterThan(40);
    const { factMaking } = open(file);
    expect(factMaking.isDone()).toBe(false);
    await vi.waitFor(() => expect(factMaking.isDone()).toBe(true), { timeout: 20_000, interval: 50 });
    expect(recordedFacts(file)).toEqual(expected);
  });

  it('get them where they were closed before all were made, and go on with the rest when opened again', async () => {
    const { file, expected } = await formerShop(60);
    const first = open(file);
    const [open1] = first.jobs.list({ status: 'open', search: '', before: null, limit: 1 }).jobs;
    if (open1 === undefined) throw new Error('the demo leaves jobs open');
    const request = {
      jobId: open1.jobId,
      seq: open1.events,
      technicianId: open1.technicianId,
      event: { kind: 'close', outcome: 'declined' } as const,
    };
    expect(append(first, createWalks(), request).ok).toBe(true);
    expect([...recordedFacts(file).keys()]).toEqual([open1.jobId]);
    await first.close();
    const second = open(file);
    expect(second.factMaking.isDone()).toBe(false);
    second.factMaking.finish();
    expect(second.factMaking.isDone()).toBe(true);
    const facts = new Map(recordedFacts(file));
    expect(facts.get(open1.jobId)).toMatchObject({ outcome: 'declined' });
    facts.delete(open1.jobId);
    expect(facts).toEqual(expected);
    expect(second.rebuild().differed).toEqual([]);
  });

  it('get them all from a rebuild', async () => {
    const { file, expected } = await formerShop(30);
    const records = open(file);
    expect(records.rebuild().differed).toEqual(['fact_block']);
    expect(records.factMaking.isDone()).toBe(true);
    expect(recordedFacts(file)).toEqual(expected);
  });
});
