import { describe, expect, it } from 'vitest';
import { openServices } from '../../main/services/index.ts';
import { draftInHand, NOBODY, setting } from '../support/draft-work.ts';
import { libraryOf, openShop, recordsOf, tempFolder } from '../support/temp-shop.ts';
import { smallDocument } from '../support/trees.ts';

async function begun() {
  const shop = await openShop();
  return { shop, client: shop.client, ...(await draftInHand(shop)) };
}

/** A document with a list nested deeper than can be walked. */
const DEEP = `{"id":"deep","title":${'['.repeat(200_000)}${']'.repeat(200_000)}}`;

function newText(id: string): string {
  return JSON.stringify({ ...smallDocument(), id, title: 'Reed warbler' });
}

describe('a draft', () => {
  it('begins as its revision’s text, on that revision, with no entries', async () => {
    const { client, draftId, revisionId, technicianId } = await begun();
    const { text } = await client.trees.revision({ revisionId });
    expect(await client.drafts.get({ draftId })).toMatchObject({
      baseText: text,
      entries: [],
      pictures: [],
      draft: {
        treeId: 'small',
        title: 'Small unit',
        base: revisionId,
        current: revisionId,
        technicianId,
        entries: 0,
      },
    });
  });

  it('has its entries in order, for whoever opens the records after it answered', async () => {
    const { shop, draftId, append } = await begun();
    const entries = [setting(['title'], 'Smaller unit'), { kind: 'undo' }, { kind: 'redo' }] as const;
    await append(entries[0]);
    expect(await append(entries[1], entries[2])).toEqual({ entries: 3 });
    const other = await openServices({ file: shop.file, host: 'loopback', library: libraryOf(tempFolder()) });
    expect(recordsOf({ services: other }).drafts.entries(draftId)).toEqual(entries);
    await other.close();
  });

  it('is listed by the title it has now, the one begun last first', async () => {
    const { shop, client, append } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    await draftInHand(shop, 'Cy');
    const listed = await client.drafts.list();
    expect(listed.map(({ title, technician, entries }) => [title, technician, entries])).toEqual([
      ['Small unit', 'Cy', 0],
      ['Smaller unit', 'Bo', 1],
    ]);
  });

  it.each([0, 2, 1e9])('takes no entries after %d where there is one, and records nothing', async (seq) => {
    const { client, draftId, technicianId, append } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    const entries = [setting(['title'], 'Smallest unit')];
    await expect(client.drafts.append({ draftId, seq, technicianId, entries })).rejects.toMatchObject({
      code: 'STALE_DRAFT',
    });
    expect((await client.drafts.get({ draftId })).entries).toHaveLength(1);
  });

  it('answers as before when asked again for what it recorded last, and records it once', async () => {
    const { client, draftId, technicianId, append } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    const ask = {
      draftId,
      seq: 1,
      technicianId,
      entries: [setting(['title'], 'Smallest'), setting(['summary'], 'S')],
    };
    expect(await client.drafts.append(ask)).toEqual({ entries: 3 });
    expect(await client.drafts.append(ask)).toEqual({ entries: 3 });
    expect((await client.drafts.get({ draftId })).entries).toHaveLength(3);
    const others = { ...ask, entries: [ask.entries[0] ?? setting([], ''), setting(['summary'], 'T')] };
    await expect(client.drafts.append(others)).rejects.toMatchObject({ code: 'STALE_DRAFT' });
  });

  it('goes on after what another program has added to it', async () => {
    const { shop, client, draftId, technicianId, append } = await begun();
    const other = await openServices({ file: shop.file, host: 'loopback', library: libraryOf(tempFolder()) });
    const there = { draftId, seq: 0, technicianId, entries: [setting(['title'], 'Theirs')] };
    expect(recordsOf({ services: other }).drafts.append(there)).toBe(true);
    await other.close();
    await expect(append({ kind: 'undo' })).rejects.toMatchObject({ code: 'STALE_DRAFT' });
    await client.drafts.append({ draftId, seq: 1, technicianId, entries: [{ kind: 'undo' }] });
    expect((await client.drafts.list())[0]).toMatchObject({ title: 'Small unit', entries: 2 });
  });

  it('takes all of several entries or none, and says which of them cannot be made', async () => {
    const { client, draftId, append } = await begun();
    const wrong = setting(['tests', 'no-such-test', 'title'], 'Nowhere');
    await expect(append(setting(['title'], 'Smaller unit'), wrong)).rejects.toMatchObject({
      code: 'EVENT_REFUSED',
      data: { where: '/entries/1' },
    });
    await expect(append({ kind: 'undo' })).rejects.toMatchObject({ code: 'EVENT_REFUSED' });
    expect((await client.drafts.get({ draftId })).entries).toEqual([]);
  });

  it('stands on a revision only of its own tree', async () => {
    const { client, draftId, revisionId, append } = await begun();
    await expect(append({ kind: 'rebase', revisionId: NOBODY })).rejects.toMatchObject({
      code: 'NOT_FOUND',
      data: { where: '/entries/0/revisionId' },
    });
    await append({ kind: 'rebase', revisionId });
    expect((await client.drafts.get({ draftId })).draft.base).toBe(revisionId);
  });

  it('is taken by a technician at work only', async () => {
    const { client, draftId, revisionId, technicianId, append } = await begun();
    await client.shop.retireTechnician({ id: technicianId });
    const refused = { code: 'NOT_FOUND', data: { where: '/technicianId' } };
    await expect(append(setting(['title'], 'X'))).rejects.toMatchObject(refused);
    await expect(client.drafts.discard({ draftId, technicianId: NOBODY })).rejects.toMatchObject(refused);
    const from = { kind: 'revision', revisionId } as const;
    await expect(client.drafts.start({ technicianId, from })).rejects.toMatchObject(refused);
  });

  it('that was discarded is in no list, takes nothing more, and is kept', async () => {
    const { shop, client, draftId, technicianId, append, publish } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    expect(await client.drafts.discard({ draftId, technicianId })).toEqual({ draftId });
    expect(await client.drafts.list()).toEqual([]);
    const gone = { code: 'NOT_FOUND', message: 'The draft was discarded.' };
    await expect(append({ kind: 'undo' })).rejects.toMatchObject(gone);
    await expect(client.drafts.get({ draftId })).rejects.toMatchObject(gone);
    await expect(client.drafts.discard({ draftId, technicianId })).rejects.toMatchObject(gone);
    await expect(publish()).rejects.toMatchObject(gone);
    expect(recordsOf(shop).drafts.entries(draftId)).toHaveLength(1);
  });

  it('of values nested too deep to be walked is refused and leaves the draft as it was', async () => {
    const { client, draftId, technicianId } = await begun();
    const { title: value } = JSON.parse(DEEP) as { title: unknown };
    const entries = [
      { kind: 'edit', what: 'Deep', changes: [{ do: 'set', path: ['title'], value }] },
    ] as never;
    await expect(client.drafts.append({ draftId, seq: 0, technicianId, entries })).rejects.toMatchObject({
      code: 'BAD_REQUEST',
    });
    expect((await client.drafts.get({ draftId })).entries).toEqual([]);
  });

  it('whose entries cannot be made again keeps no other draft from being worked on', async () => {
    const { shop, client, draftId, technicianId, revisionId, append } = await begun();
    const other = await draftInHand(shop, 'Cy');
    const impossible = [setting(['tests', 'no-such-test', 'title'], 'Nowhere')];
    recordsOf(shop).drafts.append({ draftId, seq: 0, technicianId, entries: impossible });
    expect(await client.drafts.list()).toMatchObject([
      { title: 'Small unit' },
      { draftId, title: 'small', entries: 1 },
    ]);
    expect((await client.drafts.get({ draftId })).entries).toEqual(impossible);
    const refused = { code: 'EVENT_REFUSED', message: expect.stringContaining('Entry 1 of the draft') };
    await expect(
      client.drafts.append({ draftId, seq: 1, technicianId, entries: [{ kind: 'undo' }] }),
    ).rejects.toMatchObject(refused);
    const ask = { draftId, seq: 1, technicianId, note: 'N', onto: revisionId };
    await expect(client.drafts.publish(ask)).rejects.toMatchObject(refused);
    await expect(append({ kind: 'undo' })).rejects.toMatchObject({ code: 'STALE_DRAFT' });
    expect(await other.append(setting(['title'], 'Smaller unit'))).toEqual({ entries: 1 });
    expect(await client.drafts.discard({ draftId, technicianId })).toEqual({ draftId });
  });

  it('comes back with the backup that was made of it', async () => {
    const { shop, client, draftId, append } = await begun();
    await append(setting(['title'], 'Smaller unit'));
    const backup = await client.backups.make();
    await append(setting(['title'], 'Smallest unit'));
    await client.backups.restore({ file: backup.file });
    expect(await client.drafts.list()).toMatchObject([{ draftId, title: 'Smaller unit', entries: 1 }]);
    expect(recordsOf(shop).rebuild().differed).toEqual([]);
  });
});

describe('a draft of a new tree', () => {
  it('begins as the text given, to the byte, and publishes as a tree of the shop', async () => {
    const { client, technicianId } = await begun();
    const text = `${newText('reed')}\n\n`;
    const { draft, baseText } = await client.drafts.start({ technicianId, from: { kind: 'new', text } });
    expect(baseText).toBe(text);
    expect(draft).toMatchObject({ treeId: 'reed', title: 'Reed warbler', base: null, current: null });
    const { draftId } = draft;
    const note = 'First';
    const { revisionId } = await client.drafts.publish({ draftId, seq: 0, technicianId, note, onto: null });
    expect((await client.trees.revision({ revisionId })).text).toBe(text);
    expect((await client.trees.list()).map(({ treeId }) => treeId)).toEqual(['reed', 'small']);
  });

  it('has an id that neither a tree of the shop nor another draft has', async () => {
    const { client, technicianId } = await begun();
    const start = (text: string) => client.drafts.start({ technicianId, from: { kind: 'new', text } });
    await expect(start(newText('small'))).rejects.toMatchObject({ code: 'ID_TAKEN' });
    const { draft } = await start(newText('reed'));
    await expect(start(newText('reed'))).rejects.toMatchObject({ code: 'ID_TAKEN' });
    await client.drafts.discard({ draftId: draft.draftId, technicianId });
    expect((await start(newText('reed'))).draft.treeId).toBe('reed');
  });

  it.each(['', '[]', '{', '{"id":"No Id"}', '{}', DEEP])('does not begin as %.20j', async (text) => {
    const { client, technicianId } = await begun();
    await expect(client.drafts.start({ technicianId, from: { kind: 'new', text } })).rejects.toMatchObject({
      code: 'CHECK_FAILED',
    });
    expect(await client.drafts.list()).toHaveLength(1);
  });
});
