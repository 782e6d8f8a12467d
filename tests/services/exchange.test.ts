import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { checkTree, readTree } from '../../trees/document/index.ts';
import { LIBRARY } from '../../main/services/index.ts';
import { setting } from '../support/draft-work.ts';
import { jpeg, png, svg } from '../support/pictures.ts';
import { libraryOf, openShop, tempFolder, type TempShop } from '../support/temp-shop.ts';
import { smallDocument } from '../support/trees.ts';
import { zipOf } from '../support/zip-file.ts';

const base64 = (bytes: Uint8Array | string): string => Buffer.from(bytes).toString('base64');
const unpacked = (zip: string) => unzipSync(Buffer.from(zip, 'base64'));
const textIn = (zip: string, file: string): string => new TextDecoder().decode(unpacked(zip)[file]);

async function shopWith(library?: URL) {
  const shop = await openShop(library === undefined ? {} : { library });
  const technicianId = (await shop.client.shop.addTechnician({ name: 'Mara' })).id;
  const take = (name: string, bytes: Uint8Array | string) =>
    shop.client.exchange.importFile({ technicianId, name, base64: base64(bytes) });
  return { ...shop, technicianId, take };
}

async function smallDraft() {
  const shop = await shopWith();
  const revisionId = await currentOf(shop, 'small');
  const from = { kind: 'revision', revisionId } as const;
  const { draft } = await shop.client.drafts.start({ technicianId: shop.technicianId, from });
  const add = (file: string, bytes: Uint8Array | string) =>
    shop.client.drafts.addPicture({ draftId: draft.draftId, file, base64: base64(bytes) });
  return { ...shop, draftId: draft.draftId, revisionId, add };
}

async function currentOf({ client }: Pick<TempShop, 'client'>, treeId: string): Promise<string> {
  const tree = (await client.trees.list()).find((one) => one.treeId === treeId);
  if (tree === undefined) throw new Error(`the shop has no ${treeId}`);
  return tree.revisionId;
}

describe('exchange.exportFile', () => {
  it('gives a revision byte for byte with exactly the pictures its tests show, and the same zip again', async () => {
    const shop = await shopWith(LIBRARY);
    const revisionId = await currentOf(shop, 'kw1-usb-charge');
    const zip = await shop.client.exchange.exportFile({ revisionId });
    expect(zip.name).toBe('kw1-usb-charge.zip');
    const { text } = await shop.client.trees.revision({ revisionId });
    expect(textIn(zip.base64, 'kw1-usb-charge.tree.json')).toBe(text);
    const shown = Object.values(readTree(text).tree?.tests ?? {}).flatMap(
      ({ picture }) => picture?.file ?? [],
    );
    expect(new Set(Object.keys(unpacked(zip.base64)))).toEqual(
      new Set(['kw1-usb-charge.tree.json', ...shown]),
    );
    expect(await shop.client.exchange.exportFile({ revisionId })).toEqual(zip);
  });

  it('gives a draft as its entries have made it, with pictures of its own', async () => {
    const { client, draftId, technicianId, add } = await smallDraft();
    const { file } = await add('Board.png', png(7, 5));
    const picture = { file, points: [] };
    const changes = [{ do: 'set' as const, path: ['tests', 'tone', 'picture'], value: picture }];
    await client.drafts.append({
      draftId,
      seq: 0,
      technicianId,
      entries: [{ kind: 'edit', what: 'Picture', changes }],
    });
    const { base64: zip } = await client.exchange.exportFile({ draftId });
    expect(JSON.parse(textIn(zip, 'small.tree.json'))).toMatchObject({ tests: { tone: { picture } } });
    expect(unpacked(zip)['board.png']).toEqual(png(7, 5));
  });

  it('refuses what is not there', async () => {
    const { client } = await shopWith();
    const id = '01900000-0000-7000-8000-000000000000';
    await expect(client.exchange.exportFile({ revisionId: id })).rejects.toMatchObject({ code: 'NOT_FOUND' });
    await expect(client.exchange.exportFile({ draftId: id })).rejects.toMatchObject({ code: 'NOT_FOUND' });
  });
});

describe('exchange.importFile', () => {
  it('brings each tree of the library into a shop that has none, where it publishes as it was', async () => {
    const there = await shopWith(LIBRARY);
    const here = await shopWith(libraryOf(tempFolder(), []));
    for (const { treeId, revisionId } of await there.client.trees.list()) {
      const zip = await there.client.exchange.exportFile({ revisionId });
      const { draft, baseText } = await here.take(zip.name, Buffer.from(zip.base64, 'base64'));
      expect(draft).toMatchObject({ treeId, base: null, current: null, entries: 0, fromFile: false });
      expect(baseText).toBe((await there.client.trees.revision({ revisionId })).text);
      const request = {
        draftId: draft.draftId,
        seq: 0,
        technicianId: here.technicianId,
        note: 'Taken in',
        onto: null,
      };
      const published = await here.client.drafts.publish(request);
      const again = await here.client.exchange.exportFile({ revisionId: published.revisionId });
      expect(Object.keys(unpacked(again.base64))).toEqual(Object.keys(unpacked(zip.base64)));
    }
    expect(await here.client.trees.list()).toHaveLength((await there.client.trees.list()).length);
  });

  it('makes a draft of the tree that the shop has, on its current revision, with that one’s pictures', async () => {
    const shop = await shopWith(LIBRARY);
    const revisionId = await currentOf(shop, 'kw1-usb-charge');
    const { text } = await shop.client.trees.revision({ revisionId });
    const changed = text.replace('"title": "', '"title": "Changed: ');
    const { draft, baseText, pictures } = await shop.take('kw1-usb-charge.tree.json', changed);
    expect(draft).toMatchObject({
      treeId: 'kw1-usb-charge',
      base: revisionId,
      title: expect.stringMatching(/^Changed: /),
      fromFile: true,
    });
    expect(baseText).toBe(changed);
    expect(pictures.length).toBeGreaterThan(0);
  });

  it('takes a document with errors, so that it can be mended', async () => {
    const shop = await shopWith();
    const document = { ...smallDocument(), id: 'other', symptoms: {} };
    const { tree } = readTree(JSON.stringify(document));
    expect(tree === null ? [] : checkTree(tree).filter(({ severity }) => severity === 'error')).not.toEqual(
      [],
    );
    expect((await shop.take('other.tree.json', JSON.stringify(document))).draft.treeId).toBe('other');
  });

  it.each([
    ['bytes of no kind', new Uint8Array([1, 2, 3]), 'REFUSED_FILE'],
    ['a document of another shape', JSON.stringify({ ...smallDocument(), tests: [] }), 'REFUSED_FILE'],
    ['a zip that climbs out', zipOf([{ name: '../small.tree.json', bytes: '{}' }]), 'REFUSED_FILE'],
    ['a picture missing', JSON.stringify(withPicture('gone.png')), 'REFUSED_FILE'],
  ])('refuses %s, saying what to do, and keeps nothing', async (_, bytes, code) => {
    const shop = await shopWith();
    await expect(shop.take('in.zip', bytes)).rejects.toMatchObject({
      code,
      message: expect.stringMatching(/“in\.zip” was not taken in/),
      data: { help: expect.stringMatching(/./) },
    });
    expect(await shop.client.drafts.list()).toEqual([]);
  });

  it.each([
    ['JSON of another kind', '{"name":"shop-page","version":"1.0.0"}', 'neither a tree document nor a zip'],
    ['JSON with a format of its own', '{"format":"notes/2","pages":[]}', 'neither a tree document nor a zip'],
    ['a zip whose document is none', zipOf([{ name: 'a.tree.json', bytes: '{"pages":[]}' }]), 'is no tree'],
    [
      'a tree without its format',
      '{"tests":{},"findings":{},"symptoms":{}}',
      'It is no whole Ohmward tree. What kind of file it is: this is missing.',
    ],
    [
      'a tree that breaks off',
      '{"format":"ohmward-tree/1","tests":{',
      'It is damaged, or was not saved to its end.',
    ],
    [
      'a tree that lacks parts',
      JSON.stringify({ ...smallDocument(), tests: undefined, title: undefined }),
      'It is no whole Ohmward tree. Title: this is missing. Its tests: this is missing.',
    ],
    [
      'a test that lacks its minutes',
      JSON.stringify(smallDocument()).replace('"minutes":0.5,', ''),
      'Test “Supply to ground”: Minutes: this is missing.',
    ],
    [
      'a tree of a later format',
      JSON.stringify({ ...smallDocument(), format: 'ohmward-tree/9' }),
      'of a kind that this release of Ohmward does not know',
    ],
  ])('says of %s what it is, in no words of the file', async (_, bytes, said) => {
    const shop = await shopWith();
    await expect(shop.take('package.json', bytes)).rejects.toMatchObject({
      code: 'REFUSED_FILE',
      message: expect.stringContaining(said),
      data: { help: expect.stringMatching(/./) },
    });
    await expect(shop.take('package.json', bytes)).rejects.not.toMatchObject({
      message: expect.stringMatching(/[{}]|[(]\/|an object/),
    });
  });

  it('makes no draft of what is the current revision to the byte with its pictures, and says so', async () => {
    const shop = await shopWith(LIBRARY);
    const zip = await shop.client.exchange.exportFile({
      revisionId: await currentOf(shop, 'kw1-usb-charge'),
    });
    await expect(shop.take(zip.name, Buffer.from(zip.base64, 'base64'))).rejects.toMatchObject({
      code: 'REFUSED_FILE',
      message: expect.stringContaining('is the same as the tree’s current revision'),
    });
    expect(await shop.client.drafts.list()).toEqual([]);
  });

  it('refuses a new tree of which there is a draft, and a technician who is not there', async () => {
    const shop = await shopWith();
    const text = JSON.stringify({ ...smallDocument(), id: 'other' });
    await shop.take('other.tree.json', text);
    await expect(shop.take('other.tree.json', text)).rejects.toMatchObject({ code: 'ID_TAKEN' });
    const technicianId = '01900000-0000-7000-8000-000000000000';
    const asked = { technicianId, name: 'other.tree.json', base64: base64(text) };
    await expect(shop.client.exchange.importFile(asked)).rejects.toMatchObject({ code: 'NOT_FOUND' });
  });
});

describe('drafts.addPicture', () => {
  it('keeps a photograph byte for byte under a name a document can have, with its size', async () => {
    const { client, draftId, add } = await smallDraft();
    const kept = await add('C:\\photos\\Grüne Boards (2).PNG', png(7, 5));
    expect(kept).toMatchObject({ file: 'grune-boards-2.png', width: 7, height: 5 });
    const { base64: bytes } = await client.drafts.picture({ draftId, file: kept.file });
    expect(bytes).toBe(base64(png(7, 5)));
  });

  it('keeps a drawing sanitised', async () => {
    const { client, draftId, add } = await smallDraft();
    const { file } = await add('x.svg', svg('<rect onload="alert(1)"/><script>alert(1)</script>'));
    const { base64: bytes, media } = await client.drafts.picture({ draftId, file });
    expect(media).toBe('image/svg+xml');
    expect(Buffer.from(bytes, 'base64').toString()).toBe(`${svg('<rect/>')}\n`);
  });

  it('gives names by what a picture is, free of clashes, and the same name to the same picture', async () => {
    const { add } = await smallDraft();
    expect((await add('board.svg', jpeg())).file).toBe('board.jpg');
    expect((await add('board.png', png(7, 5))).file).toBe('board.png');
    expect((await add('BOARD.png', png(7, 6))).file).toBe('board-2.png');
    expect((await add('again.png', png(7, 5))).file).toBe('board.png');
    expect((await add('…', png(7, 7))).file).toBe('picture.png');
  });

  it('gives no name that another draft of the tree has for another picture, so that each test keeps its own in a merge', async () => {
    const { client, draftId, revisionId, technicianId, add } = await smallDraft();
    const from = { kind: 'revision', revisionId } as const;
    const theirs = (await client.drafts.start({ technicianId, from })).draft.draftId;
    const other = await client.drafts.addPicture({
      draftId: theirs,
      file: 'board.png',
      base64: base64(png(9, 9)),
    });
    const own = await add('board.png', png(7, 5));
    const showing = (test: string, file: string) => setting(['tests', test, 'picture'], { file, points: [] });
    const show = showing('tone', other.file);
    await client.drafts.append({ draftId: theirs, seq: 0, technicianId, entries: [show] });
    const onto = (
      await client.drafts.publish({ draftId: theirs, seq: 1, technicianId, note: 'N', onto: revisionId })
    ).revisionId;
    const entries = [showing('border', own.file), show, { kind: 'rebase' as const, revisionId: onto }];
    await client.drafts.append({ draftId, seq: 0, technicianId, entries });
    const merged = await client.drafts.publish({ draftId, seq: 3, technicianId, note: 'N', onto });
    const shown = async (file: string) =>
      (await client.trees.picture({ revisionId: merged.revisionId, file })).base64;
    expect(await shown(other.file)).toBe(base64(png(9, 9)));
    expect(await shown(own.file)).toBe(base64(png(7, 5)));
  });

  it('refuses what is no picture, and a draft that has ended', async () => {
    const { client, draftId, technicianId, add } = await smallDraft();
    await expect(add('board.png', 'hello')).rejects.toMatchObject({
      code: 'REFUSED_FILE',
      message: expect.stringMatching(/“board\.png” was not taken/),
      data: { help: expect.stringMatching(/./) },
    });
    await client.drafts.discard({ draftId, technicianId });
    await expect(add('board.png', png(7, 5))).rejects.toMatchObject({ code: 'NOT_FOUND' });
  });
});

function withPicture(file: string) {
  const document = { ...smallDocument(), id: 'other' };
  const [test] = Object.values(document.tests);
  if (test !== undefined) test.picture = { file, points: [] };
  return document;
}
