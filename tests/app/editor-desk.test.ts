import { expect, it } from 'vitest';
import { EditorDesk } from '../../app/editor/desk/editor-desk.svelte.ts';
import { openedDraft, openedRevision } from '../../app/editor/desk/opened-draft.ts';
import { figuresOf } from '../../app/editor/workspace/reckoning.svelte.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { addStep, addTest, put, removalOf } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { openShop, type TempShop } from '../support/temp-shop.ts';

/** A desk over a draft of the small tree, in a shop of its own with real records. */
async function deskOf(shop: TempShop, draftId?: string): Promise<EditorDesk> {
  const session = await sessionOf(shop);
  const technicianId = session.technician?.id ?? '';
  const from = { kind: 'revision', revisionId: session.trees[0]?.revisionId ?? '' } as const;
  const id = draftId ?? (await shop.client.drafts.start({ technicianId, from })).draft.draftId;
  const opened = await openedDraft(session, id);
  if (!opened.ok) throw new Error(opened.trouble.message);
  return new EditorDesk(session, opened.value);
}

async function sessionOf({ client }: TempShop): Promise<Session> {
  const session = new Session(() => Promise.resolve(client));
  await session.open();
  if (session.technicians.length === 0) {
    await client.shop.addTechnician({ name: 'Ada' });
    await session.open();
  }
  return session;
}

function idOf({ opened }: EditorDesk): string {
  return opened.kind === 'draft' ? opened.full.draft.draftId : '';
}

it('records every edit, undo and redo, so that the draft is there again as it was', async () => {
  const shop = await openShop();
  const desk = await deskOf(shop);
  desk.edit('Title', put(desk.document, ['title'], 'Other'));
  const test = addTest(desk.document, 'Torch');
  expect(desk.add('Add the test Torch', test, (id) => `/tests/${id}`)).toBe('torch');
  expect(desk.selected).toBe('/tests/torch');
  desk.undo();
  expect(desk.selected).toBe('');
  expect(desk.redoes).toBe('Add the test Torch');
  desk.redo();
  desk.undo();
  expect(await desk.keeper?.settled()).toBe(true);
  const again = await deskOf(shop, idOf(desk));
  expect(again.text).toBe(desk.text);
  expect(again.undoes).toBe('Title');
  again.redo();
  expect(again.tree.tests.torch?.title).toBe('Torch');
});

it('records an edit of a part whose title is very long, and calls it by the beginning of that', async () => {
  const desk = await deskOf(await openShop());
  const title = 'Torch '.repeat(100).trim();
  desk.add(`Add the test ${title}`, addTest(desk.document, title), (id) => `/tests/${id}`);
  expect(await desk.keeper?.settled()).toBe(true);
  expect(desk.undoes).toMatch(/^Add the test (?:Torch )+\S*…$/);
  expect(desk.undoes).toHaveLength(120);
});

it('undoes what was typed into one field together, and what was typed after leaving it by itself', async () => {
  const desk = await deskOf(await openShop());
  const type = (title: string): boolean =>
    desk.edit('Title', put(desk.document, ['title'], title), { joins: '/title' });
  type('O');
  type('Ot');
  desk.settle();
  type('Other');
  desk.undo();
  expect(desk.tree.title).toBe('Ot');
  desk.undo();
  expect(desk.tree.title).toBe('Small unit');
  expect(desk.undoes).toBeNull();
});

it('refuses an edit that leaves something without its shape, and says why; a blank text is no such thing', async () => {
  const desk = await deskOf(await openShop());
  const before = desk.text;
  expect(desk.edit('Minutes', put(desk.document, ['tests', 'tone', 'minutes'], -1))).toBe(false);
  expect(desk.refusal).toContain('at least 0');
  expect(desk.text).toBe(before);
  expect(desk.edit('Title', put(desk.document, ['title'], ''))).toBe(true);
  expect(desk.blanks.map(({ at }) => at)).toEqual(['/title']);
});

it('tells whoever follows of all changes in order, so that a mirror stays the same', async () => {
  const desk = await deskOf(await openShop());
  const heard: unknown[] = [];
  const end = desk.follow((changes) => heard.push(changes));
  const changes = put(desk.document, ['title'], 'Other');
  desk.edit('Title', changes);
  desk.undo();
  end();
  desk.redo();
  expect(heard).toEqual([changes, [{ do: 'set', path: ['title'], value: 'Small unit' }]]);
});

it('says where another window has added to the draft meanwhile, and records nothing over it', async () => {
  const shop = await openShop();
  const desk = await deskOf(shop);
  const other = await deskOf(shop, idOf(desk));
  other.edit('Title', put(other.document, ['title'], 'Theirs'));
  await other.keeper?.settled();
  desk.edit('Title', put(desk.document, ['title'], 'Ours'));
  expect(await desk.keeper?.settled()).toBe(false);
  expect(desk.keeper?.trouble?.code).toBe('STALE_DRAFT');
  expect((await deskOf(shop, idOf(desk))).tree.title).toBe('Theirs');
});

it('keeps what cannot be recorded, and records it once somebody is at work again', async () => {
  const shop = await openShop();
  const desk = await deskOf(shop);
  const { technician } = desk.session;
  await shop.client.shop.addTechnician({ name: 'Bo' });
  await desk.session.open();
  expect(desk.session.technician).toBeNull();
  desk.edit('Title', put(desk.document, ['title'], 'Other'));
  expect(await desk.keeper?.settled()).toBe(false);
  expect(desk.keeper?.trouble?.code).toBe('NOBODY_AT_WORK');
  desk.session.workAs(technician?.id ?? '');
  await desk.keeper?.send();
  expect(desk.keeper?.pending).toBe(false);
  expect((await deskOf(shop, idOf(desk))).tree.title).toBe('Other');
});

it('sets beside a merged draft the revision that it stands on, and not what the merge made of the draft', async () => {
  const shop = await openShop();
  const desk = await deskOf(shop);
  desk.edit('Minutes', put(desk.document, ['tests', 'tone', 'minutes'], 7));
  const other = await draftInHand(shop, 'Cy');
  await other.append(setting(['tests', 'tone', 'minutes'], 5));
  const { revisionId } = await other.publish();
  expect(desk.rebase(revisionId)).toBe(true);
  desk.publishedText = (await figuresOf(desk, desk.base)).published;
  expect(desk.published?.tests.tone?.minutes).toBe(5);
  expect(desk.tree.tests.tone?.minutes).toBe(7);
});

it('only shows a published revision', async () => {
  const shop = await openShop();
  const session = await sessionOf(shop);
  const opened = await openedRevision(session, session.trees[0]?.revisionId ?? '');
  if (!opened.ok) throw new Error(opened.trouble.message);
  const desk = new EditorDesk(session, opened.value);
  expect(desk.edit('Title', put(desk.document, ['title'], 'Other'))).toBe(false);
  expect(desk.tree.title).toBe('Small unit');
  desk.ask({ kind: 'remove', pointers: ['/tests/tone'] });
  expect(desk.asking).toBeNull();
});

it('turns to the path of what is selected, and lets go of what is gone', async () => {
  const desk = await deskOf(await openShop());
  const made = addStep(desk.document, 'no-sound', 'tone');
  desk.add('Add a step', made, (id) => `/symptoms/no-sound/steps/${id}`);
  expect(desk.symptom).toBe('no-sound');
  desk.select('/tests/tone');
  expect(desk.symptom).toBe('no-sound');
  desk.mark('/findings/speaker-open');
  desk.edit('Delete', removalOf(desk.document, ['/findings/speaker-open']).changes);
  expect(desk.marked).toEqual(['/tests/tone']);
  expect(desk.selected).toBe('/tests/tone');
});

it('stays at a part whose entry goes, or that lacks what was pointed at in it', async () => {
  const desk = await deskOf(await openShop());
  const cautions = ['tests', 'tone', 'cautions'];
  desk.edit('Add a caution', put(desk.document, cautions, ['Mind the speaker.']));
  desk.select('/tests/tone/cautions/0');
  desk.edit('Remove it', [{ do: 'remove', path: cautions }]);
  expect(desk.selected).toBe('/tests/tone');
  desk.select('/findings/panel-dead/otherwise');
  desk.edit('Title', put(desk.document, ['title'], 'Other'));
  expect(desk.selected).toBe('/findings/panel-dead');
  desk.edit('Delete', removalOf(desk.document, ['/findings/panel-dead']).changes);
  expect(desk.selected).toBe('');
});
