import { expect, it } from 'vitest';
import { DraftKeeper } from '../../app/editor/desk/draft-keeper.svelte.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import type { DraftEntry, Json } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop, recordsOf } from '../support/temp-shop.ts';

it('records in smaller numbers what waits and is too much for one request, each entry once and in order', async () => {
  const shop = await openShop();
  const { draftId } = await draftInHand(shop);
  const session = new Session(() => Promise.resolve(shop.client));
  await session.open();
  const keeper = new DraftKeeper(session, draftId, 0);
  const wide: Json = Array.from({ length: 9000 }, () => Array.from({ length: 10 }, () => 1));
  const entries: readonly DraftEntry[] = Array.from({ length: 7 }, (_, turn) =>
    turn % 2 === 0 ? setting(['cautions'], wide) : setting(['title'], `Title ${String(turn)}`),
  );
  for (const entry of entries) keeper.keep(entry);
  expect(await keeper.settled()).toBe(true);
  expect(keeper.trouble).toBeNull();
  expect(recordsOf(shop).drafts.entries(draftId)).toEqual(entries);
});
