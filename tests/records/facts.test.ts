import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Records } from '../../main/records/index.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import type { Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { openBusyShop } from '../support/busy-shop.ts';
import { plainFact } from '../support/plain-fact.ts';
import { recordedFacts } from '../support/recorded-facts.ts';
import { closedSpeakerJob, openShop, recordsOf, seededShop, startSmallJob } from '../support/temp-shop.ts';
import { smallDocument, treeOf } from '../support/trees.ts';

/** The small tree with other bands, and without one of its tests' results. */
function smallRevisions(): readonly Tree[] {
  const narrower = smallDocument();
  Object.assign(narrower.tests['supply-resistance'] ?? {}, {
    results: {
      clear: { title: 'Clear', band: { from: 1e5 } },
      short: { title: 'Short', band: { to: 1e5 } },
    },
  });
  return [treeOf(smallDocument()), treeOf(narrower)];
}

/** Works a busy shop for so many acts, and expects its facts to be those of its events. */
function workAndCompare(
  shop: { readonly records: Records; readonly file: string },
  revisions: readonly Tree[],
  seed: number,
  acts: number,
): number {
  const { records, file } = shop;
  const busy = openBusyShop(records, revisions, seededRandom(seed));
  records.together(() => {
    busy.publish();
    for (let done = 0; done < acts; done += 1) busy.act();
  });
  const jobIds = busy.jobIds();
  const plain = jobIds.flatMap((jobId) => {
    const fact = plainFact(records, jobIds, jobId, busy.shownTo);
    return fact === null ? [] : ([[jobId, fact]] as const);
  });
  const recorded = [...recordedFacts(file)].map(([jobId, { place: _, ...fact }]) => [jobId, fact] as const);
  expect(new Map(recorded)).toEqual(new Map(plain));
  expect(records.rebuild()).toMatchObject({ differed: [], halted: [] });
  return plain.length;
}

describe('the facts of closed jobs', () => {
  it(
    'are those worked out from all events, and the same made anew, after acts in any order with bands moved in between',
    { timeout: 240_000 },
    async () => {
      let closed = 0;
      await fc.assert(
        fc.asyncProperty(fc.integer(), async (seed) => {
          const { close, ...shop } = seededShop();
          try {
            closed += workAndCompare(shop, smallRevisions(), seed, 250);
          } finally {
            await close();
          }
        }),
        { numRuns: 15 },
      );
      expect(closed).toBeGreaterThan(50);
    },
  );

  it('are so on random trees too', { timeout: 240_000 }, async () => {
    let closed = 0;
    await fc.assert(
      fc.asyncProperty(arbitraryTree(), fc.integer(), async (tree, seed) => {
        const { close, ...shop } = seededShop();
        try {
          closed += workAndCompare(shop, [tree], seed, 120);
        } finally {
          await close();
        }
      }),
      { numRuns: 15 },
    );
    expect(closed).toBeGreaterThan(15);
  });

  it('say of a job that its unit is back once it is brought in again, and not of another unit’s', async () => {
    const shop = await openShop();
    const { jobId } = await closedSpeakerJob(shop);
    expect(recordedFacts(shop.file).get(jobId)?.backAt).toBeNull();
    const again = await startSmallJob(shop, 'dark-screen');
    const openedAt = recordsOf(shop).jobs.find(again.jobId)?.openedAt ?? '';
    expect(recordedFacts(shop.file).get(jobId)?.backAt).toBe(Date.parse(openedAt));
    await startSmallJob(shop, 'dark-screen');
    expect(recordedFacts(shop.file).get(jobId)?.backAt).toBe(Date.parse(openedAt));
  });

  it('say of no job that its unit is back where the serial says that there is none, nor where it is closed again', async () => {
    const shop = await openShop();
    const [first, second] = [await closedSpeakerJob(shop, '?'), await closedSpeakerJob(shop, '?')];
    for (const { jobId } of [first, second]) expect(recordedFacts(shop.file).get(jobId)?.backAt).toBeNull();
    await first.append({ kind: 'take-back' });
    await first.append({ kind: 'close', outcome: 'fixed' });
    expect(recordedFacts(shop.file).get(first.jobId)?.backAt).toBeNull();
  });

  it('are gone while a closing is taken back, and there again when it is made again', async () => {
    const shop = await openShop();
    const { jobId, append } = await closedSpeakerJob(shop);
    expect([...recordedFacts(shop.file).keys()]).toEqual([jobId]);
    await append({ kind: 'take-back' });
    expect([...recordedFacts(shop.file).keys()]).toEqual([]);
    await append({ kind: 'close', outcome: 'fixed' });
    expect([...recordedFacts(shop.file).keys()]).toEqual([jobId]);
  });

  it('are put right by a rebuild, which says that they were wrong and leaves what was shown as it was', async () => {
    const shop = await openShop();
    await closedSpeakerJob(shop);
    const right = recordedFacts(shop.file);
    const db = new Sqlite(shop.file);
    const shown = db.prepare('SELECT * FROM belief_shown').all();
    expect(shown).toHaveLength(1);
    db.exec("UPDATE way SET answers = '[]'; UPDATE fact_name SET name = 'other' WHERE kind = 'finding'");
    expect(recordsOf(shop).rebuild().differed).toEqual(['fact_block']);
    expect(recordedFacts(shop.file)).toEqual(right);
    expect(recordsOf(shop).rebuild().differed).toEqual([]);
    expect(db.prepare('SELECT * FROM belief_shown').all()).toEqual(shown);
    db.close();
  });
});
