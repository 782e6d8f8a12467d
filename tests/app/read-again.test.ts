import { expect, it } from 'vitest';
import { EditorDesk } from '../../app/editor/desk/editor-desk.svelte.ts';
import { openedDraft } from '../../app/editor/desk/opened-draft.ts';
import { readAgain, type Again } from '../../app/editor/desk/read-again.ts';
import { Session, type Client } from '../../app/shell/session.svelte.ts';
import { put } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop, recordsOf } from '../support/temp-shop.ts';

/** A draft on a desk whose answers can be lost, and another hand that appends to it. */
async function twoWindows() {
  const shop = await openShop();
  const { draftId, technicianId } = await draftInHand(shop);
  const line = { lost: false };
  const append: Client['drafts']['append'] = async (...asked) => {
    const kept = await shop.client.drafts.append(...asked);
    if (line.lost) throw new Error('The answer did not arrive.');
    return kept;
  };
  const drafts = new Proxy(shop.client.drafts, {
    get: (of, name): unknown => (name === 'append' ? append : Reflect.get(of, name)),
  });
  const client = new Proxy(shop.client, {
    get: (of, name): unknown => (name === 'drafts' ? drafts : Reflect.get(of, name)),
  });
  const session = new Session(() => Promise.resolve(client));
  await session.open();
  const opened = await openedDraft(session, draftId);
  if (!opened.ok) throw new Error(opened.trouble.message);
  const desk = new EditorDesk(session, opened.value);
  const elsewhere = (seq: number) =>
    shop.client.drafts.append({
      draftId,
      seq,
      technicianId,
      entries: [setting(['tests', 'tone', 'minutes'], 3)],
    });
  const again = async (how: Again) => {
    const read = await readAgain(desk, draftId, how);
    if (!read.ok) throw new Error(read.trouble.message);
    return read.value;
  };
  const minutes = (value: number): boolean =>
    desk.edit(`Minutes ${String(value)}`, put(desk.document, ['tests', 'tone', 'minutes'], value));
  const title = (value: string): boolean => desk.edit('Title', put(desk.document, ['title'], value));
  const kept = () => recordsOf(shop).drafts.entries(draftId);
  return { shop, line, draftId, technicianId, desk, elsewhere, again, minutes, title, kept };
}

it('counts and keeps what is done after a draft has gone on elsewhere, and makes it again on what was done there', async () => {
  const { desk, elsewhere, again, title, kept } = await twoWindows();
  await elsewhere(0);
  title('Ours');
  expect(await desk.keeper?.settled()).toBe(false);
  desk.edit('Summary', put(desk.document, ['summary'], 'Our summary'));
  expect([desk.keeper?.isOutrun, desk.keeper?.isEnded, desk.keeper?.edits]).toEqual([true, false, 2]);
  desk.select('/tests/tone');
  const read = await again('all');
  if (read.kind !== 'read') throw new Error('An edit is left.');
  expect(await read.desk.keeper?.settled()).toBe(true);
  expect(read.desk.selected).toBe('/tests/tone');
  expect(read.desk.notice).toContain('The 2 edits of this window are made again');
  expect(read.desk.tree).toMatchObject({
    title: 'Ours',
    summary: 'Our summary',
    tests: { tone: { minutes: 3 } },
  });
  expect(kept()).toHaveLength(3);
});

it('lays nothing out anew, unless that is chosen, where an edit cannot be made again', async () => {
  const { desk, elsewhere, again, title, minutes, kept } = await twoWindows();
  await elsewhere(0);
  title('Ours');
  minutes(7);
  expect(await desk.keeper?.settled()).toBe(false);
  expect(await again('all')).toEqual({ kind: 'left', made: 1, left: ['Minutes 7'] });
  expect(desk.tree.tests.tone?.minutes).toBe(7);
  const chosen = await again('what-goes');
  if (chosen.kind !== 'read') throw new Error('It was not read.');
  expect(await chosen.desk.keeper?.settled()).toBe(true);
  expect(chosen.desk.tree).toMatchObject({ title: 'Ours', tests: { tone: { minutes: 3 } } });
  expect(kept()).toHaveLength(2);
  const none = await again('none');
  expect(none.kind === 'read' && none.desk.keeper?.pending).toBe(false);
});

it('does not make twice what was recorded before the other window went on, and whose answer was lost', async () => {
  const { line, desk, elsewhere, again, title, kept } = await twoWindows();
  line.lost = true;
  title('Ours');
  await desk.keeper?.settled();
  line.lost = false;
  await elsewhere(1);
  desk.edit('Summary', put(desk.document, ['summary'], 'Our summary'));
  expect(await desk.keeper?.settled()).toBe(false);
  expect(desk.keeper?.isOutrun).toBe(true);
  const read = await again('all');
  if (read.kind !== 'read') throw new Error('An edit is left.');
  expect(await read.desk.keeper?.settled()).toBe(true);
  expect(kept().map((entry) => entry.kind === 'edit' && entry.what)).toEqual([
    'Title',
    'Set tests/tone/minutes',
    'Summary',
  ]);
});

it('takes no more edits of a draft that has ended elsewhere', async () => {
  const { shop, draftId, technicianId, desk, title } = await twoWindows();
  await shop.client.drafts.discard({ draftId, technicianId });
  title('Ours');
  expect(await desk.keeper?.settled()).toBe(false);
  expect(desk.keeper?.isEnded).toBe(true);
  expect(title('Other')).toBe(false);
  expect(desk.refusal).toContain('has ended elsewhere');
  expect(desk.tree.title).toBe('Ours');
});
