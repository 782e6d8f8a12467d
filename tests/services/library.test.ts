import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readTree } from '../../trees/document/index.ts';
import { addLibrary, LIBRARY } from '../../main/services/index.ts';
import { bytesOf, libraryOf, openShop, seededShop, tempFolder } from '../support/temp-shop.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';

function withPicture() {
  const document = smallDocument();
  Object.assign(document.tests['rail-in'] ?? {}, { picture: { file: 'small-board.svg', points: [] } });
  return document;
}

function folderWith(documents: readonly TreeDocument[], picture?: string) {
  const folder = tempFolder();
  if (picture !== undefined) writeFileSync(join(folder, 'small-board.svg'), picture);
  return { folder, library: libraryOf(folder, documents) };
}

describe('the library', () => {
  it('that we ship is there after the first opening: every tree, with its exact text and every picture', async () => {
    const { client } = await openShop({ library: LIBRARY });
    const summaries = await client.trees.list();
    expect(summaries.length).toBeGreaterThan(0);
    expect((await client.shop.open()) as { notices?: string[] }).toMatchObject({ notices: [] });
    for (const { treeId, revisionId } of summaries) {
      const { text } = await client.trees.revision({ revisionId });
      expect(text).toBe(readFileSync(fileURLToPath(new URL(`${treeId}.tree.json`, LIBRARY)), 'utf8'));
      const { tree } = readTree(text);
      for (const { picture } of Object.values(tree?.tests ?? {})) {
        if (picture === undefined) continue;
        const { media, base64 } = await client.trees.picture({ revisionId, file: picture.file });
        const shipped = readFileSync(fileURLToPath(new URL(picture.file, LIBRARY)));
        expect(media).toBe('image/svg+xml');
        expect(Buffer.from(base64, 'base64').equals(shipped)).toBe(true);
      }
    }
  });

  it('is added once only', async () => {
    const { records, close } = seededShop();
    const { library } = folderWith([withPicture()], '<svg/>');
    expect([addLibrary(records, library), addLibrary(records, library)]).toEqual([[], []]);
    expect(records.trees.marks('small')).toHaveLength(1);
    await close();
  });

  it('is added again where a text or a picture is new, and not where an older app brings an old one back', async () => {
    const { records, close } = seededShop();
    const first = folderWith([withPicture()], '<svg/>').library;
    const redrawn = folderWith([withPicture()], '<svg width="1"/>').library;
    const rewritten = folderWith([{ ...withPicture(), summary: 'Newer.' }], '<svg width="1"/>').library;
    for (const folder of [first, redrawn, rewritten, redrawn, first]) addLibrary(records, folder);
    expect(records.trees.marks('small')).toHaveLength(3);
    expect(records.trees.current('small')?.summary).toBe('Newer.');
    await close();
  });

  it('leaves a tree alone of which the shop has published a revision of its own', async () => {
    const { records, close } = seededShop();
    addLibrary(records, folderWith([smallDocument()]).library);
    const tree = treeOf({ ...smallDocument(), summary: 'Ours.' });
    records.addRevision({ bytes: bytesOf(tree), tree, source: 'published', note: '', pictures: [] });
    addLibrary(records, folderWith([{ ...smallDocument(), summary: 'Newer.' }]).library);
    expect(records.trees.current('small')?.summary).toBe('Ours.');
    await close();
  });

  it('leaves a broken tree and one without its picture out, says so, and brings the others', async () => {
    const { folder, library } = folderWith([smallDocument(), { ...withPicture(), id: 'pictured' }]);
    writeFileSync(join(folder, 'broken.tree.json'), '{"format":');
    const { client } = await openShop({ library });
    expect((await client.trees.list()).map(({ treeId }) => treeId)).toEqual(['small']);
    expect(await client.shop.open()).toMatchObject({
      notices: [expect.stringContaining('broken.tree.json'), expect.stringContaining('small-board.svg')],
    });
  });

  it('that is not there is said, and the app opens', async () => {
    const { folder, library } = folderWith([]);
    rmSync(folder, { recursive: true });
    const { client } = await openShop({ library });
    expect(await client.shop.open()).toMatchObject({ state: 'ready', notices: [expect.any(String)] });
  });

  it('keeps a revision’s bytes exactly, white space and all', () => {
    const { records } = seededShop();
    const bytes = new TextEncoder().encode(`  ${JSON.stringify(smallDocument())}\r\n\t`);
    const { revisionId } = records.addRevision({
      bytes,
      tree: smallTree(),
      source: 'import',
      note: 'n',
      pictures: [],
    });
    const found = records.trees.find(revisionId);
    expect(new TextEncoder().encode(found?.text)).toEqual(bytes);
  });
});
