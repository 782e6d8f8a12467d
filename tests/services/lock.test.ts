import Sqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { createKeys, KEY_MINUTES } from '../../main/services/lock/keys.ts';
import { lockBy, opens } from '../../main/services/lock/passphrase.ts';
import { createTries, MOST_TRIES } from '../../main/services/lock/tries.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop } from '../support/temp-shop.ts';

const PASSPHRASE = 'lantern street 9';

async function locked() {
  const shop = await openShop();
  const draft = await draftInHand(shop);
  await draft.append(setting(['title'], 'Smaller unit'));
  await shop.client.lock.set({ passphrase: PASSPHRASE });
  const publish = (key?: string) => {
    const { draftId, technicianId, revisionId: onto } = draft;
    return shop.client.drafts.publish({
      draftId,
      seq: 1,
      technicianId,
      note: 'x',
      onto,
      ...(key !== undefined && { key }),
    });
  };
  return { shop, client: shop.client, ...draft, publish };
}

describe('the lock of publishing', () => {
  it('is not set until the shop sets it, and publishing then takes no key', async () => {
    const shop = await openShop();
    const { publish } = await draftInHand(shop);
    expect(await shop.client.lock.state()).toEqual({ set: false });
    await expect(shop.client.lock.unlock({ passphrase: PASSPHRASE })).rejects.toMatchObject({
      code: 'NOT_FOUND',
    });
    expect(await publish()).toMatchObject({ treeId: 'small' });
  });

  it('lets nothing be published without a key, and all with one', async () => {
    const { client, revisionId, technicianId, publish } = await locked();
    for (const key of [undefined, '', 'key'])
      await expect(publish(key)).rejects.toMatchObject({ code: 'LOCKED' });
    const again = { revisionId, technicianId, note: 'x', onto: revisionId };
    await expect(client.revisions.publishAgain(again)).rejects.toMatchObject({ code: 'LOCKED' });
    expect(await client.revisions.list({ treeId: 'small' })).toHaveLength(1);
    const { key, minutes } = await client.lock.unlock({ passphrase: PASSPHRASE });
    expect(minutes).toBe(15);
    const { revisionId: onto } = await publish(key);
    expect(await client.revisions.publishAgain({ ...again, onto, key })).toMatchObject({ treeId: 'small' });
  });

  it('leaves drafts to everybody', async () => {
    const { client, draftId, append, technicianId } = await locked();
    expect(await append({ kind: 'undo' })).toEqual({ entries: 2 });
    expect(await client.drafts.discard({ draftId, technicianId })).toEqual({ draftId });
  });

  it('gives no key for another passphrase, and none at all after five wrong ones within a minute', async () => {
    const { client } = await locked();
    for (let tries = 0; tries < 5; tries += 1) {
      await expect(client.lock.unlock({ passphrase: `${PASSPHRASE}!` })).rejects.toMatchObject({
        code: 'WRONG_PASSPHRASE',
      });
    }
    const tooMany = { code: 'TOO_MANY_TRIES' };
    await expect(client.lock.unlock({ passphrase: PASSPHRASE })).rejects.toMatchObject(tooMany);
    await expect(client.lock.set({ passphrase: null, former: PASSPHRASE })).rejects.toMatchObject(tooMany);
  });

  it('is changed and taken away only by who knows the passphrase, and former keys are then no good', async () => {
    const { client, publish } = await locked();
    const { key } = await client.lock.unlock({ passphrase: PASSPHRASE });
    const next = 'another passphrase';
    await expect(client.lock.set({ passphrase: next })).rejects.toMatchObject({ code: 'WRONG_PASSPHRASE' });
    await expect(client.lock.set({ passphrase: null, former: next })).rejects.toMatchObject({
      code: 'WRONG_PASSPHRASE',
    });
    expect(await client.lock.set({ passphrase: next, former: PASSPHRASE })).toEqual({ set: true });
    await expect(publish(key)).rejects.toMatchObject({ code: 'LOCKED' });
    expect(await client.lock.set({ passphrase: null, former: next })).toEqual({ set: false });
    expect(await publish()).toMatchObject({ title: 'Smaller unit' });
  });

  it.each(['', 'short', 'x'.repeat(201)])('is not set to %.10j', async (passphrase) => {
    const { client } = await openShop();
    await expect(client.lock.set({ passphrase })).rejects.toMatchObject({ code: 'BAD_REQUEST' });
    expect(await client.lock.state()).toEqual({ set: false });
  });

  it('keeps the passphrase itself nowhere in the records', async () => {
    const { shop } = await locked();
    const db = new Sqlite(shop.file, { readonly: true });
    const values = db
      .prepare<[], string>("SELECT value FROM setting WHERE name = 'publishing-lock'")
      .pluck()
      .all();
    db.close();
    expect(values).toHaveLength(1);
    expect(JSON.parse(values[0] ?? '')).toEqual({
      salt: expect.stringMatching(/^[\w-]{22}$/),
      hash: expect.stringMatching(/^[\w-]{43}$/),
    });
    expect(values[0]).not.toContain(PASSPHRASE);
  });

  it('stays when the records are opened again, and keys given before do not', async () => {
    const { shop, client } = await locked();
    const { key } = await client.lock.unlock({ passphrase: PASSPHRASE });
    await shop.services.close();
    const again = await openShop({ file: shop.file });
    expect(await again.client.lock.state()).toEqual({ set: true });
    const [draft] = await again.client.drafts.list();
    const { draftId = '', base: onto = null, technicianId = '' } = draft ?? {};
    const ask = { draftId, seq: 1, onto, technicianId, note: 'x', key };
    await expect(again.client.drafts.publish(ask)).rejects.toMatchObject({ code: 'LOCKED' });
  });
});

describe('a passphrase', () => {
  it('opens what it locked, however its letters are composed, and another one does not', async () => {
    const lock = await lockBy('caf\u00e9 Stra\u00dfe');
    expect(await opens('cafe\u0301 Stra\u00dfe', lock)).toBe(true);
    expect(await opens('caf\u00e9 stra\u00dfe', lock)).toBe(false);
    expect((await lockBy('caf\u00e9 Stra\u00dfe')).hash).not.toBe(lock.hash);
  });
});

describe('a key', () => {
  it('is good until fifteen minutes after its last use, for the lock it was given for', () => {
    let now = 0;
    const keys = createKeys(() => now);
    const key = keys.give('salt');
    expect(keys.use(key, 'salt')).toBe(true);
    now += KEY_MINUTES * 60_000 - 1;
    expect(keys.use(key, 'salt')).toBe(true);
    now += KEY_MINUTES * 60_000 - 1;
    expect(keys.use(key, 'salt')).toBe(true);
    now += KEY_MINUTES * 60_000;
    expect(keys.use(key, 'salt')).toBe(false);
    const other = keys.give('salt');
    expect(keys.use(other, 'pepper')).toBe(false);
  });
});

describe('tries', () => {
  it('are let through again when the wrong ones are a minute old', async () => {
    let now = 0;
    const tries = createTries(() => now);
    for (let tried = 0; tried < MOST_TRIES; tried += 1)
      expect(await tries.try(async () => false)).toBe(false);
    now += 59_999;
    expect(await tries.try(async () => true)).toBeNull();
    now += 1;
    expect(await tries.try(async () => true)).toBe(true);
  });

  it('made all at once are no more than those made one by one', async () => {
    const tries = createTries(() => 0);
    const checks = Promise.withResolvers<boolean>();
    const made = Array.from({ length: 20 }, () => tries.try(() => checks.promise));
    checks.resolve(false);
    const through = (await Promise.all(made)).filter((outcome) => outcome !== null);
    expect(through).toHaveLength(MOST_TRIES);
  });

  it('that were right count for nothing', async () => {
    const tries = createTries(() => 0);
    for (let tried = 0; tried < 3 * MOST_TRIES; tried += 1)
      expect(await tries.try(async () => true)).toBe(true);
  });
});
