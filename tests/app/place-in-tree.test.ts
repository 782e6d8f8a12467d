import { describe, expect, it } from 'vitest';
import { EditorDesk } from '../../app/editor/desk/editor-desk.svelte.ts';
import { openedRevision } from '../../app/editor/desk/opened-draft.ts';
import { selectAt } from '../../app/editor/desk/select-at.ts';
import { inHand } from '../../app/editor/workspace/in-hand.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { draftInHand } from '../support/draft-work.ts';
import { openShop } from '../support/temp-shop.ts';

async function opened() {
  const shop = await openShop();
  const session = new Session(async () => shop.client);
  await shop.client.shop.addTechnician({ name: 'Ada' });
  await session.open();
  const revisionId = session.trees[0]?.revisionId ?? '';
  return { shop, session, revisionId };
}

async function revisionDesk(): Promise<EditorDesk> {
  const { session, revisionId } = await opened();
  const revision = await openedRevision(session, revisionId);
  if (!revision.ok) throw new Error(revision.trouble.message);
  return new EditorDesk(session, revision.value);
}

describe('the address of a part of a tree', () => {
  it('selects the branch it names, and turns to its path', async () => {
    const desk = await revisionDesk();
    const [symptom = '', path] = Object.entries(desk.tree.symptoms).at(-1) ?? [];
    const [step = '', { then }] = Object.entries(path?.steps ?? {})[0] ?? ['', { then: {} }];
    const at = `/symptoms/${symptom}/steps/${step}/then/${Object.keys(then)[0] ?? ''}`;
    selectAt(desk, at);
    expect(desk.selected).toBe(at);
    expect(desk.symptom).toBe(symptom);
    expect(desk.notice).toBe('');
  });

  it.each([
    ['/symptoms/dark-screen/steps/gone/then/lit', '/symptoms/dark-screen'],
    ['/symptoms/gone/steps/first', ''],
    ['/symptoms', ''],
    ['no pointer', ''],
  ])('selects what %j would be in where there is no such part, and says so', async (at, found) => {
    const desk = await revisionDesk();
    selectAt(desk, at);
    expect(desk.selected).toBe(found);
    expect(desk.notice).toContain(at);
  });
});

describe('a tree in hand', () => {
  it('is the own draft of who is at work, else the current revision, though others have drafts', async () => {
    const { shop, session, revisionId } = await opened();
    await draftInHand(shop, 'Bo');
    expect(await inHand(session, 'small')).toEqual({ ok: true, value: { kind: 'read', id: revisionId } });
    const { draftId, technicianId } = await draftInHand(shop, 'Cy');
    await session.open();
    session.workAs(technicianId);
    expect(await inHand(session, 'small')).toEqual({ ok: true, value: { kind: 'draft', id: draftId } });
  });

  it('is told not to be there where the shop has no such tree', async () => {
    const { session } = await opened();
    expect(await inHand(session, 'gone')).toMatchObject({
      ok: false,
      trouble: { code: 'TREE_NOT_FOUND', where: 'gone' },
    });
  });
});
