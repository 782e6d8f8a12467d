import { describe, expect, it, onTestFinished } from 'vitest';
import { keyring } from '../../app/editor/publish/keyring.svelte.ts';
import { PublishForm } from '../../app/editor/publish/publish-form.svelte.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop } from '../support/temp-shop.ts';

const PASSPHRASE = 'lantern street 9';

/** The form over a draft of a real shop. */
async function formed(passphrase: string | null) {
  onTestFinished(() => void (keyring.key = undefined));
  const shop = await openShop();
  const { draftId, technicianId, revisionId, append } = await draftInHand(shop);
  await append(setting(['title'], 'Smaller unit'));
  if (passphrase !== null) await shop.client.lock.set({ passphrase });
  const session = new Session(async () => shop.client);
  const form = new PublishForm(session, (note, key) =>
    session.ask((client) =>
      client.drafts.publish({
        draftId,
        seq: 1,
        technicianId,
        note,
        onto: revisionId,
        ...(key !== undefined && { key }),
      }),
    ),
  );
  await form.open();
  form.note = 'Renamed';
  return { shop, form };
}

describe('the form to publish with', () => {
  it('needs a note, and no passphrase where none is set', async () => {
    const { form } = await formed(null);
    expect(form.locked).toBe(false);
    form.note = '  ';
    expect(form.ready).toBe(false);
    form.note = 'Renamed';
    expect(await form.submit()).toMatchObject({ kind: 'published', summary: { title: 'Smaller unit' } });
  });

  it('asks for the passphrase where one is set, says that it is wrong, and keeps the note', async () => {
    const { form } = await formed(PASSPHRASE);
    expect(form.locked).toBe(true);
    expect(form.ready).toBe(false);
    form.passphrase = 'lantern street 8';
    expect(await form.submit()).toEqual({ kind: 'refused' });
    expect(form.wrong).toMatch('That is not the passphrase.');
    expect(form.note).toBe('Renamed');
    form.passphrase = PASSPHRASE;
    expect((await form.submit()).kind).toBe('published');
    expect(form.passphrase).toBe('');
    expect(keyring.key).toEqual(expect.any(String));
  });

  it('asks for the passphrase where the key it has is good no more', async () => {
    const { shop, form } = await formed(PASSPHRASE);
    keyring.key = (await shop.client.lock.unlock({ passphrase: PASSPHRASE })).key;
    await shop.client.lock.set({ passphrase: 'another street 2', former: PASSPHRASE });
    form.locked = false;
    expect(await form.submit()).toEqual({ kind: 'refused' });
    expect(form.locked).toBe(true);
    form.passphrase = 'another street 2';
    expect((await form.submit()).kind).toBe('published');
  });

  it('tells that the tree has a newer revision, to be merged', async () => {
    const { shop, form } = await formed(null);
    const other = await draftInHand(shop, 'Cy');
    await other.append(setting(['summary'], 'Theirs'));
    await other.publish();
    expect(await form.submit()).toEqual({ kind: 'stale' });
  });
});
