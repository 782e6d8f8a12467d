import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Records } from '../../main/records/index.ts';
import { matches } from '../../main/records/search.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { workRandomJob } from '../support/random-job.ts';
import {
  bytesOf,
  closedSpeakerJob,
  openShop,
  recordsOf,
  seededShop,
  startSmallJob,
} from '../support/temp-shop.ts';
import { smallTree } from '../support/trees.ts';

async function found(search: string, status: 'open' | 'closed' = 'closed') {
  const shop = await openShop();
  await closedSpeakerJob(shop);
  await startSmallJob(shop, 'dark-screen');
  const { jobs } = await shop.client.jobs.list({ status, search });
  return jobs.length;
}

describe('the search for jobs', () => {
  it.each([
    ['0001', 'the end of a serial'],
    ['s-0', 'the start of a serial'],
    ['r-1', 'the reference'],
    ['mall un', 'two parts of the family'],
    ['a1', 'the board'],
    ['ADA', 'the technician, whatever the case'],
    ['no sound', 'the symptom'],
    ['speaker open', 'the finding'],
    ['spéaker', 'the finding, whatever the accents'],
    ['ada s-0001 sound', 'words of different kinds'],
    ['s', 'one letter that begins a word'],
    ['  ', 'nothing, which asks for all'],
  ])('finds a closed job by "%s": %s', async (search) => {
    expect(await found(search)).toBe(1);
  });

  it.each([
    ['zebra', 'no word'],
    ['speaker zebra', 'one of two words only'],
    ['da', 'two letters inside a word'],
    ['"', 'a quotation mark'],
    ['NOT OR AND NEAR( ^ *', 'the index’s own words'],
    ['speaker*', 'a star'],
  ])('does not find it by "%s": %s', async (search) => {
    expect(await found(search)).toBe(0);
  });

  it('finds open jobs by the same rule', async () => {
    expect(await found('dark scr', 'open')).toBe(1);
    expect(await found('speaker', 'open')).toBe(0);
  });

  it('no longer finds a job among the closed ones when its closing is taken back', async () => {
    const shop = await openShop();
    const { append } = await closedSpeakerJob(shop);
    await append({ kind: 'take-back' });
    expect((await shop.client.jobs.list({ status: 'closed', search: 'speaker' })).jobs).toEqual([]);
    expect((await shop.client.jobs.list({ status: 'open', search: 'sound' })).jobs).toHaveLength(1);
  });

  it('finds by the index what a look at every job’s words finds, whatever is asked', async () => {
    const { records, close } = seededShop();
    try {
      const words = ['Ada', 'KW-1', 'Ünit', '"x"', 'ß', '漢字', 'a', 'ab', 'e\u0301t', '😀😀😀'];
      fillWith(records, words);
      const all = records.jobs.list({ status: 'closed', search: '', before: null, limit: 200 }).jobs;
      const term = fc.oneof(
        fc.constantFrom(...words),
        fc.string({ maxLength: 6 }),
        fc.string({ unit: 'grapheme', maxLength: 4 }),
      );
      fc.assert(
        fc.property(fc.array(term, { maxLength: 3 }), (terms) => {
          const search = terms.join(' ');
          const expected = all.filter((job) => matches(search, wordsShown(job))).map(({ jobId }) => jobId);
          const { jobs } = records.jobs.list({ status: 'closed', search, before: null, limit: 200 });
          expect(jobs.map(({ jobId }) => jobId)).toEqual(expected);
        }),
        { numRuns: 500 },
      );
    } finally {
      await close();
    }
  });
});

function wordsShown(job: ReturnType<Records['jobs']['list']>['jobs'][number]) {
  return [
    job.serial,
    job.reference,
    job.family,
    job.board,
    job.technician,
    job.symptomTitle,
    job.findingTitle ?? '',
  ];
}

function fillWith(records: Records, references: readonly string[]): void {
  const tree = smallTree();
  const { revisionId } = records.addRevision({
    bytes: bytesOf(tree),
    tree,
    source: 'import',
    note: '',
    pictures: [],
  });
  records.together(() => {
    for (const reference of references) {
      workRandomJob(records, revisionId, seededRandom(reference.length), 200, reference);
    }
  });
}

describe('pages of jobs', () => {
  it.each(['', 'small'])('hold every closed job once, newest first (search "%s")', async (search) => {
    const { records, close } = seededShop();
    try {
      fillWith(
        records,
        Array.from({ length: 23 }, (_, index) => `T-${String(index)}`),
      );
      const seen: string[] = [];
      for (let before: string | null = null, page = 0; page < 20; page += 1) {
        const { jobs, next } = records.jobs.list({ status: 'closed', search, before, limit: 5 });
        seen.push(...jobs.map(({ openedAt }) => openedAt));
        before = next;
        if (next === null) break;
      }
      expect(seen).toHaveLength(records.tallies().closed);
      expect(seen).toEqual([...seen].sort().reverse());
      expect(new Set(seen).size).toBe(seen.length);
    } finally {
      await close();
    }
  });

  it('show a unit’s earlier visits, whatever the case of its serial, and no other family’s', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    await startSmallJob(shop, 'dark-screen');
    const visits = await shop.client.jobs.ofUnit({ family: 'Small unit', serial: ' s-0001 ' });
    expect(visits.map(({ symptom }) => symptom)).toEqual(['dark-screen', 'no-sound']);
    expect(await shop.client.jobs.ofUnit({ family: 'Other', serial: 'S-0001' })).toEqual([]);
    expect(recordsOf(shop).jobs.ofUnit('Small unit', 'S-000')).toEqual([]);
  });
});
