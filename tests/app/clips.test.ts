import { beforeEach, describe, expect, it, vi } from 'vitest';
import { EditorDesk } from '../../app/editor/desk/editor-desk.svelte.ts';
import { openedDraft } from '../../app/editor/desk/opened-draft.ts';
import { clipsOf } from '../../app/editor/workspace/clips.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { png } from '../support/pictures.ts';
import { libraryOf, openShop, tempFolder, type TempShop } from '../support/temp-shop.ts';
import { smallDocument } from '../support/trees.ts';

const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

/** What the browser keeps for this machine; Node has no such store. */
function store(): Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> {
  const kept = new Map<string, string>();
  return {
    getItem: (name) => kept.get(name) ?? null,
    setItem: (name, value) => void kept.set(name, value),
    removeItem: (name) => void kept.delete(name),
  };
}

/** A desk over a draft of a tree whose test `tone` shows a picture of its own called board.png. */
async function deskShowing({ client }: TempShop, session: Session, treeId: string, picture: Uint8Array) {
  const technicianId = session.technician?.id ?? '';
  const revisionId = session.trees.find((tree) => tree.treeId === treeId)?.revisionId ?? '';
  const from = { kind: 'revision', revisionId } as const;
  const { draftId } = (await client.drafts.start({ technicianId, from })).draft;
  await client.drafts.addPicture({ draftId, file: 'board.png', base64: base64(picture) });
  const opened = await openedDraft(session, draftId);
  if (!opened.ok) throw new Error(opened.trouble.message);
  const desk = new EditorDesk(session, opened.value);
  const value = { file: 'board.png', points: [] };
  desk.edit('Picture', [{ do: 'set', path: ['tests', 'tone', 'picture'], value }]);
  return { desk, draftId };
}

async function twoDesks() {
  const other = { ...smallDocument(), id: 'other' };
  Object.assign(other.tests['tone'] ?? {}, { title: 'Another tone' });
  const shop = await openShop({ library: libraryOf(tempFolder(), [smallDocument(), other]) });
  await shop.client.shop.addTechnician({ name: 'Ada' });
  const session = new Session(() => Promise.resolve(shop.client));
  await session.open();
  const here = await deskShowing(shop, session, 'small', png(7, 5));
  const there = await deskShowing(shop, session, 'other', png(9, 9));
  return { shop, here, there };
}

describe('a test pasted from another tree', () => {
  beforeEach(() => void vi.stubGlobal('localStorage', store()));

  it('brings its picture, and the tests that showed one of the same name show theirs still', async () => {
    const { here, there } = await twoDesks();
    clipsOf(there.desk).copy(['/tests/tone']);
    clipsOf(here.desk).paste();
    await vi.waitFor(() => expect(here.desk.tree.tests['tone-2']?.picture?.file).toBe('board-2.png'));
    expect(here.desk.tree.tests.tone?.picture?.file).toBe('board.png');
    // What came along is told on the screen, until the next edit.
    await vi.waitFor(() => expect(here.desk.notice).toContain('Another tone'));
    here.desk.undo();
    expect(here.desk.notice).toBe('');
    here.desk.redo();
    const [own, brought] = await Promise.all(
      ['board.png', 'board-2.png'].map((file) => here.desk.picture(file)),
    );
    expect(own).toMatchObject({ value: `data:image/png;base64,${base64(png(7, 5))}` });
    expect(brought).toMatchObject({ value: `data:image/png;base64,${base64(png(9, 9))}` });
  });

  it('shows no picture where its own cannot be had any more', async () => {
    const { shop, here, there } = await twoDesks();
    clipsOf(there.desk).copy(['/tests/tone']);
    await there.desk.keeper?.settled();
    const technicianId = there.desk.session.technician?.id ?? '';
    await shop.client.drafts.discard({ draftId: there.draftId, technicianId });
    clipsOf(here.desk).paste();
    await vi.waitFor(() => expect(here.desk.tree.tests['tone-2']).toMatchObject({ title: 'Another tone' }));
    await vi.waitFor(() => expect(here.desk.tree.tests['tone-2']?.picture).toBeUndefined());
    expect(here.desk.tree.tests.tone?.picture?.file).toBe('board.png');
  });
});
