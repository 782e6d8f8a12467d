import { expect, it } from 'vitest';
import { EditorDesk } from '../../app/editor/desk/editor-desk.svelte.ts';
import { openedDraft } from '../../app/editor/desk/opened-draft.ts';
import { figuresOf, historyNow } from '../../app/editor/workspace/reckoning.svelte.ts';
import { Session, type Client } from '../../app/shell/session.svelte.ts';
import { seededRandom } from '../../main/services/demo/random.ts';
import { put } from '../../trees/edit/index.ts';
import { draftInHand, setting } from '../support/draft-work.ts';
import { workRandomJob } from '../support/random-job.ts';
import { openShop, recordsOf } from '../support/temp-shop.ts';

const LIMIT = ['tests', 'rail-in', 'results', 'good', 'band', 'from'];
const LOW = ['tests', 'rail-in', 'results', 'low', 'band', 'to'];

/** A draft on a desk in a shop that has closed jobs, and how often its history was asked for. */
async function worked() {
  const shop = await openShop();
  const { draftId, technicianId, revisionId, publish } = await draftInHand(shop);
  const records = recordsOf(shop);
  const random = seededRandom(7);
  records.together(() => {
    for (let job = 0; job < 60; job += 1) workRandomJob(records, revisionId, random, 90);
  });
  const line = { asked: 0, lost: false };
  const drafts: Client['drafts'] = new Proxy(shop.client.drafts, {
    get: (of, name): unknown => {
      if (name === 'history') line.asked += 1;
      if (name === 'append' && line.lost) return () => Promise.reject(new Error('No answer.'));
      return Reflect.get(of, name);
    },
  });
  const client = new Proxy(shop.client, {
    get: (of, name): unknown => (name === 'drafts' ? drafts : Reflect.get(of, name)),
  });
  const session = new Session(() => Promise.resolve(client));
  await session.open();
  const opened = await openedDraft(session, draftId);
  if (!opened.ok) throw new Error(opened.trouble.message);
  const desk = new EditorDesk(session, opened.value);
  const figures = figuresOf(desk, desk.base);
  const move = (volts: number): boolean =>
    desk.edit(
      'Move the limit',
      [LIMIT, LOW].flatMap((path) => put(desk.document, path, volts)),
    );
  const now = async () => {
    const asked = await historyNow(figures);
    if (!asked.ok) throw new Error(asked.trouble.message);
    return asked.value;
  };
  return { shop, records, desk, draftId, technicianId, line, figures, move, now, publish };
}

it('is the history that publishing the draft makes of the shop’s jobs, and is asked for only where a limit came to be elsewhere', async () => {
  const { records, desk, line, move, now, shop, draftId, technicianId } = await worked();
  const published = records.historyOf('small');
  expect(await now()).toEqual(published);
  desk.edit('Title', put(desk.document, ['title'], 'Other'));
  expect(await now()).toEqual(published);
  expect(line.asked).toBe(0);
  move(4.99);
  const sorted = await now();
  expect(sorted).not.toEqual(published);
  desk.edit('Title', put(desk.document, ['title'], 'Another'));
  expect(await now()).toBe(sorted);
  desk.undo();
  desk.undo();
  expect(await now()).toEqual(published);
  desk.redo();
  expect(await now()).toBe(sorted);
  expect(line.asked).toBe(1);
  expect(await desk.keeper?.settled()).toBe(true);
  const seq = desk.keeper?.kept ?? 0;
  await shop.client.drafts.publish({ draftId, seq, technicianId, note: 'Limit', onto: desk.base });
  expect(records.historyOf('small')).toEqual(sorted);
});

it('cannot be had while the edits are not recorded, nor of a draft that another window has edited', async () => {
  const { shop, desk, line, move, figures, draftId, technicianId, now } = await worked();
  line.lost = true;
  move(4.99);
  expect(await historyNow(figures)).toMatchObject({ ok: false, trouble: { code: 'NOT_KEPT' } });
  line.lost = false;
  await now();
  move(4.95);
  expect(await desk.keeper?.settled()).toBe(true);
  await shop.client.drafts.append({
    draftId,
    seq: desk.keeper?.kept ?? 0,
    technicianId,
    entries: [setting(['title'], 'Theirs')],
  });
  expect(await historyNow(figures)).toMatchObject({ ok: false, trouble: { code: 'STALE_DRAFT' } });
});
