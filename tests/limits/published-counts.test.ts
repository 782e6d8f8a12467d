import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../main/services/demo/random.ts';
import type { Json } from '../../trees/edit/index.ts';
import {
  layoutBands,
  resorting,
  setLimit,
  setReference,
  splitBand,
  type Results,
} from '../../trees/limits/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { workRandomJob } from '../support/random-job.ts';
import { openShop, recordsOf } from '../support/temp-shop.ts';

/** A shop with many jobs of the small tree behind it, drawn from a stated seed. */
async function worked() {
  const shop = await openShop();
  const records = recordsOf(shop);
  const random = seededRandom(20260105);
  const revisionId = records.trees.list()[0]?.revisionId ?? '';
  records.together(() => {
    for (let job = 0; job < 200; job += 1) workRandomJob(records, revisionId, random, 90);
  });
  return shop;
}

/** As it goes into a draft. */
const asJson = (results: Results) => JSON.parse(JSON.stringify(results)) as Json;

const moving = (index: number, to: number) => (results: Results) => {
  const limit = layoutBands(results).limits[index];
  if (limit === undefined) throw new Error('no limit');
  return setLimit(results, limit, to);
};

const split = (results: Results) =>
  splitBand(results, { result: 'low', at: 2, id: 'sagging', title: 'Sagging', part: 'above' });

describe('what other bands would have made of the readings', () => {
  it('is what publishing them makes of the counts, one revision after the other', async () => {
    const shop = await worked();
    const changes: readonly (readonly [string, (results: Results) => Results])[] = [
      ['supply-resistance', moving(0, 500_000)],
      ['supply-resistance', moving(0, 7)],
      ['rail-in', moving(1, 6.5)],
      ['rail-in', moving(0, 2)],
      ['rail-far', moving(0, 0.5)],
      ['rail-far', moving(0, 1.05)],
      ['rail-far', (results) => setReference(results, undefined)],
    ];
    for (const [index, [test, change]] of changes.entries()) {
      const tree = recordsOf(shop).trees.current('small');
      if (tree === null) throw new Error('no tree');
      const { readings } = await shop.client.history.readings({ treeId: 'small', test });
      const results = change(tree.tests[test]?.results ?? {});
      const told = resorting(tree, test, results, readings);
      expect(told.moved.length, `change ${String(index)}`).toBeGreaterThan(0);
      const counts = async () => (await shop.client.history.of({ treeId: 'small' })).results[test];
      expect(await counts()).toEqual(told.counts.before);
      const { append, publish } = await draftInHand(shop, `Author ${String(index)}`);
      await append(setting(['tests', test, 'results'], asJson(results)));
      await publish();
      expect(await counts()).toEqual(told.counts.after);
    }
  });

  it('counts readings of a band that was split under the result that has them now', async () => {
    const shop = await worked();
    const tree = recordsOf(shop).trees.current('small');
    if (tree === null) throw new Error('no tree');
    const { readings } = await shop.client.history.readings({ treeId: 'small', test: 'rail-in' });
    const results = split(tree.tests['rail-in']?.results ?? {});
    const told = resorting(tree, 'rail-in', results, readings);
    expect(told.moved.map(({ to }) => to)).toContain('sagging');
    const { append, publish } = await draftInHand(shop);
    const branch = { go: 'finding:converter-low', weight: 1 };
    await append(
      setting(['tests', 'rail-in', 'results'], asJson(results)),
      setting(['symptoms', 'dark-screen', 'steps', 'supply', 'then', 'sagging'], branch),
    );
    await publish();
    const { results: counts } = await shop.client.history.of({ treeId: 'small' });
    expect(counts['rail-in']).toEqual(told.counts.after);
  });
});
