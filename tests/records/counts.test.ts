import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contributionOf, historyOf } from '../../trees/belief/index.ts';
import { replay, standing } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import type { Records } from '../../main/records/index.ts';
import { seededRandom, type Random } from '../../main/services/demo/random.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { workRandomJob } from '../support/random-job.ts';
import { bytesOf, openShop, recordsOf, seededShop } from '../support/temp-shop.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

/** The history worked out from the events alone, each job on its own chart, sorted by `tree`. */
function historyFromEvents(records: Records, tree: Tree, jobIds: readonly string[]) {
  const contributions = jobIds.flatMap((jobId) => {
    const job = records.jobs.find(jobId);
    const events = records.events.of(jobId).map(({ event }) => event);
    const walked = replay(records.charts.of(job?.revisionId ?? '').chart, job?.symptom ?? '', events);
    if (!walked.ok) throw new Error(walked.refusal.code);
    return contributionOf(tree, standing(walked.walk).job) ?? [];
  });
  return historyOf(contributions);
}

/** In one transaction, as nothing here is about durability. */
function workJobs(records: Records, revisionId: string, random: Random, jobs: number, most: () => number) {
  return records.together(() =>
    Array.from({ length: jobs }, () => workRandomJob(records, revisionId, random, most())),
  );
}

function addRevision(records: Records, tree: Tree): string {
  const { revisionId } = records.addRevision({
    bytes: bytesOf(tree),
    tree,
    source: 'published',
    note: '',
    pictures: [],
  });
  return revisionId;
}

describe('the counts', () => {
  it(
    'equal those worked out from all events, after random jobs on random trees with much taken back',
    { timeout: 120_000 },
    async () => {
      const drawn = fc.record({
        tree: arbitraryTree(),
        seed: fc.integer(),
        jobs: fc.integer({ min: 1, max: 12 }),
      });
      await fc.assert(
        fc.asyncProperty(drawn, async ({ tree, seed, jobs }) => {
          const { records, close } = seededShop();
          try {
            const random = seededRandom(seed);
            const revisionId = addRevision(records, tree);
            const most = () => 1 + Math.floor(random.next() * 60);
            const jobIds = workJobs(records, revisionId, random, jobs, most);
            expect(records.historyOf(tree.id)).toEqual(historyFromEvents(records, tree, jobIds));
            expect(records.rebuild()).toMatchObject({ differed: [], jobs, halted: [] });
            const { open, closed } = records.tallies();
            const outcomes = jobIds.map((jobId) => records.jobs.find(jobId)?.outcome ?? null);
            expect({ open, closed }).toEqual({
              open: outcomes.filter((outcome) => outcome === null).length,
              closed: outcomes.filter((outcome) => outcome !== null).length,
            });
          } finally {
            await close();
          }
        }),
        { numRuns: 40 },
      );
    },
  );

  it('are put right by a rebuild, which names the tables that were wrong', async () => {
    const shop = await openShop();
    const records = recordsOf(shop);
    const revisionId = records.trees.list()[0]?.revisionId ?? '';
    workJobs(records, revisionId, seededRandom(11), 20, () => 80);
    const right = records.historyOf('small');
    expect(Object.keys(right.findings)).not.toEqual([]);
    const db = new Sqlite(shop.file);
    db.exec(
      "UPDATE finding_count SET jobs = jobs + 1; DELETE FROM result_count; UPDATE tally SET jobs = 900 WHERE what = 'open'",
    );
    db.close();
    expect(records.rebuild().differed).toEqual(['finding_count', 'result_count', 'tally']);
    expect(records.historyOf('small')).toEqual(right);
    expect(records.rebuild().differed).toEqual([]);
  });
});

describe('a new revision', () => {
  const NARROWER = {
    clear: { title: 'Clear', band: { from: 1e5 } },
    short: { title: 'Short', band: { to: 1e5 } },
  };

  async function worked() {
    const shop = await openShop();
    const records = recordsOf(shop);
    const revisionId = records.trees.list()[0]?.revisionId ?? '';
    const random = seededRandom(5);
    const jobIds = workJobs(records, revisionId, random, 30, () => 90);
    return { records, jobIds, random };
  }

  it('whose bands moved sorts the raw readings of old jobs into the new bands', async () => {
    const { records, jobIds } = await worked();
    const before = records.historyOf('small');
    const document = smallDocument();
    Object.assign(document.tests['supply-resistance'] ?? {}, { results: NARROWER });
    const tree = treeOf(document);
    addRevision(records, tree);
    const after = records.historyOf('small');
    expect(after).not.toEqual(before);
    expect(after).toEqual(historyFromEvents(records, tree, jobIds));
    expect(records.rebuild().differed).toEqual([]);
  });

  it('that lost a finding, a test and a result no longer counts them, and counts them again when they are back', async () => {
    const { records } = await worked();
    const before = records.historyOf('small');
    const document = smallDocument();
    const findings = without(document.findings, 'speaker-open');
    const tests = without(document.tests, 'rail-far');
    const results = without(tests['border']?.results ?? {}, 'partial');
    Object.assign(tests['border'] ?? {}, { results });
    addRevision(records, treeOf({ ...document, findings, tests }));
    const shorter = JSON.stringify(records.historyOf('small'));
    expect(JSON.stringify(before)).toMatch(/speaker-open.*rail-far|rail-far.*speaker-open/s);
    expect(shorter).not.toMatch(/speaker-open|rail-far|partial/);
    addRevision(records, treeOf(smallDocument()));
    expect(records.historyOf('small')).toEqual(before);
  });

  it('counts jobs that go on on the old revision by its own bands', async () => {
    const { records, jobIds, random } = await worked();
    const old = records.jobs.find(jobIds[0] ?? '')?.revisionId ?? '';
    const document = smallDocument();
    Object.assign(document.tests['supply-resistance'] ?? {}, { results: NARROWER });
    const tree = treeOf(document);
    addRevision(records, tree);
    const later = workJobs(records, old, random, 10, () => 90);
    expect(records.historyOf('small')).toEqual(historyFromEvents(records, tree, [...jobIds, ...later]));
    expect(records.rebuild().differed).toEqual([]);
  });
});

function without<V>(entries: Readonly<Record<string, V>>, id: string): Record<string, V> {
  return Object.fromEntries(Object.entries(entries).filter(([key]) => key !== id));
}
