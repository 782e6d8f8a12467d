import { expect, it } from 'vitest';
import { applyEntry, openDraft, replayDraft, textOf, type DraftEntry } from '../../trees/edit/index.ts';
import { smallDocument } from '../support/trees.ts';

const BASE = `${JSON.stringify(smallDocument(), null, 1)}\n`;
const REVISION = '0192d3b2-0000-7000-8000-000000000001';

const set = (value: string): DraftEntry => ({
  kind: 'edit',
  what: `Call it ${value}`,
  changes: [{ do: 'set', path: ['title'], value }],
});
const rebase: DraftEntry = { kind: 'rebase', revisionId: REVISION };

function draftAfter(...entries: DraftEntry[]) {
  const replayed = replayDraft(BASE, entries);
  if (!replayed.ok) throw new Error(replayed.message);
  return replayed.draft;
}

it('what a merge has put in cannot be undone once the draft stands on the revision that it came from', () => {
  const draft = draftAfter(set('Mine'), set('Merged'), rebase);
  expect(draft.rebasedOn).toBe(REVISION);
  expect(draft.document.title).toBe('Merged');
  expect(applyEntry(draft, { kind: 'undo' })).toMatchObject({ ok: false });
});

it('edits after a merge are undone as far as the merge, and the text is then that of the merge', () => {
  const draft = draftAfter(set('Merged'), rebase);
  const merged = textOf(draft);
  expect(JSON.parse(merged)).toMatchObject({ title: 'Merged' });
  const back = draftAfter(set('Merged'), rebase, set('Later'), { kind: 'undo' });
  expect(back.undo).toBeNull();
  expect(textOf(back)).toBe(merged);
  expect(textOf(draftAfter(set('Merged'), rebase, set('Later')))).toContain('Later');
});

it('a draft that nothing was changed in keeps its text to the byte over a merge', () => {
  const opened = openDraft(BASE);
  expect(opened.ok).toBe(true);
  expect(textOf(draftAfter(rebase))).toBe(BASE);
});
