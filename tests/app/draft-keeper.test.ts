import { afterEach, expect, it, vi } from 'vitest';
import { DraftKeeper } from '../../app/editor/desk/draft-keeper.svelte.ts';
import { Session, type Client } from '../../app/shell/session.svelte.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop, recordsOf, type TempShop } from '../support/temp-shop.ts';

/** A client of real services that drops the answers to entries while it is told to, and notes under which names they went. */
function losing({ client }: TempShop) {
  const recordedBy = new Map<string, string>();
  const line = { client: client as Client, lost: false, asked: 0, recordedBy };
  const append: Client['drafts']['append'] = async (...asked) => {
    line.asked += 1;
    const kept = await client.drafts.append(...asked);
    const [{ entries, technicianId }] = asked;
    for (const entry of entries) recordedBy.set(JSON.stringify(entry), technicianId);
    if (line.lost) throw new Error('The answer did not arrive.');
    return kept;
  };
  const drafts = new Proxy(client.drafts, {
    get: (of, name): unknown => (name === 'append' ? append : Reflect.get(of, name)),
  });
  line.client = new Proxy(client, {
    get: (of, name): unknown => (name === 'drafts' ? drafts : Reflect.get(of, name)),
  });
  return line;
}

async function keeping() {
  const shop = await openShop();
  const { draftId, technicianId } = await draftInHand(shop);
  const line = losing(shop);
  const session = new Session(() => Promise.resolve(line.client));
  await session.open();
  const kept = () => recordsOf(shop).drafts.entries(draftId);
  return { shop, line, session, technicianId, draftId, keeper: new DraftKeeper(session, draftId, 0), kept };
}

afterEach(() => vi.useRealTimers());

const [one, two, three] = ['One', 'Two', 'Three'].map((title) => setting(['title'], title)) as [
  ReturnType<typeof setting>,
  ReturnType<typeof setting>,
  ReturnType<typeof setting>,
];

it('records each entry once and in order where an answer was lost and more was done before it was asked again', async () => {
  const { line, keeper, kept } = await keeping();
  line.lost = true;
  keeper.keep(one);
  expect(await keeper.settled()).toBe(false);
  expect(kept()).toEqual([one]);
  keeper.keep(two);
  keeper.keep(three);
  line.lost = false;
  expect(await keeper.settled()).toBe(true);
  expect(keeper.trouble).toBeNull();
  expect(kept()).toEqual([one, two, three]);
});

it('records what was done under the name of who was at work then', async () => {
  const { shop, line, session, technicianId, keeper, kept } = await keeping();
  const cy = await shop.client.shop.addTechnician({ name: 'Cy' });
  await session.open();
  session.workAs(technicianId);
  line.lost = true;
  keeper.keep(one);
  await keeper.settled();
  keeper.keep(two);
  session.workAs(cy.id);
  keeper.keep(three);
  line.lost = false;
  expect(await keeper.settled()).toBe(true);
  expect(kept()).toEqual([one, two, three]);
  expect([...line.recordedBy.values()]).toEqual([technicianId, technicianId, cy.id]);
});

it('has the draft read again where it was discarded elsewhere, and sends once more where only the answer was lost', async () => {
  const { shop, line, technicianId, draftId, keeper } = await keeping();
  line.lost = true;
  keeper.keep(one);
  await keeper.settled();
  expect(keeper.isOutrun).toBe(false);
  line.lost = false;
  await shop.client.drafts.discard({ draftId, technicianId });
  expect(await keeper.settled()).toBe(false);
  expect(keeper.isOutrun).toBe(true);
});

it('tries again by itself until all is recorded, and tells trouble that stays no second time', async () => {
  const { line, keeper, kept } = await keeping();
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  line.lost = true;
  keeper.keep(one);
  await vi.waitFor(() => expect(keeper.trouble).not.toBeNull());
  const first = keeper.trouble;
  keeper.keep(two);
  await vi.advanceTimersByTimeAsync(5000);
  expect(line.asked).toBe(2);
  expect(keeper.trouble).toBe(first);
  line.lost = false;
  await vi.advanceTimersByTimeAsync(5000);
  await vi.waitFor(() => expect(keeper.pending).toBe(false));
  expect(keeper.trouble).toBeNull();
  expect(kept()).toEqual([one, two]);
});

it('tries no more once what waits is given up', async () => {
  const { line, keeper, kept } = await keeping();
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  line.lost = true;
  keeper.keep(one);
  await vi.waitFor(() => expect(keeper.trouble).not.toBeNull());
  keeper.keep(two);
  keeper.giveUp();
  line.lost = false;
  await vi.advanceTimersByTimeAsync(20_000);
  expect(keeper.pending).toBe(false);
  expect(line.asked).toBe(1);
  expect(kept()).toEqual([one]);
});
