import { expect, it } from 'vitest';
import {
  addTest,
  applyEntry,
  makeAgain,
  openDraft,
  put,
  removalOf,
  type Change,
  type Draft,
  type DraftEntry,
} from '../../trees/edit/index.ts';
import { smallDocument } from '../support/trees.ts';

function opened(): Draft {
  const draft = openDraft(JSON.stringify(smallDocument()));
  if (!draft.ok) throw new Error(draft.message);
  return draft.draft;
}

function after(draft: Draft, ...entries: readonly DraftEntry[]): Draft {
  return entries.reduce((made, entry) => {
    const next = applyEntry(made, entry);
    if (!next.ok) throw new Error(next.message);
    return next.draft;
  }, draft);
}

const edit = (what: string, changes: readonly Change[]): DraftEntry => ({ kind: 'edit', what, changes });
const join = (what: string, changes: readonly Change[]): DraftEntry => ({
  kind: 'edit',
  what,
  changes,
  joins: true,
});
const undo: DraftEntry = { kind: 'undo' };
const redo: DraftEntry = { kind: 'redo' };

const base = opened();
const minutes = (value: number, draft = base) =>
  edit(`Minutes ${String(value)}`, put(draft.document, ['tests', 'tone', 'minutes'], value));
const title = (value: string) => edit(`Title ${value}`, put(base.document, ['title'], value));

/** The draft that making `here` again on `there` leads to, and what that was said to be. */
function again(here: readonly DraftEntry[], there: Draft, on = base) {
  const made = makeAgain(on, here, there);
  return { ...made, draft: after(there, ...made.entries.map(({ entry }) => entry)) };
}

it('makes edits again beside those of another window, each to be undone by itself', () => {
  const there = after(base, title('Theirs'));
  const test = edit('Add the test Torch', addTest(base.document, 'Torch').changes);
  const { draft, made, left } = again([minutes(7), test], there);
  expect({ made, left }).toEqual({ made: 2, left: [] });
  expect(draft.document).toMatchObject({ title: 'Theirs', tests: { tone: { minutes: 7 }, torch: {} } });
  const { document } = after(draft, undo);
  expect(document).toMatchObject({ title: 'Theirs', tests: { tone: { minutes: 7 } } });
  expect(document.tests).not.toHaveProperty('torch');
});

it('never overwrites what another window changed, added or took out, and names the edits that are left for that', () => {
  const torch = addTest(base.document, 'Torch').changes;
  const there = after(
    base,
    minutes(3),
    edit('Their torch', torch),
    edit('Change it', put(after(base, edit('', torch)).document, ['tests', 'torch', 'minutes'], 99)),
  );
  const { draft, made, left } = again([minutes(7), edit('Our torch', torch), title('Ours')], there);
  expect({ made, left }).toEqual({ made: 1, left: ['Minutes 7', 'Our torch'] });
  expect(draft.document).toMatchObject({
    title: 'Ours',
    tests: { tone: { minutes: 3 }, torch: { minutes: 99 } },
  });
});

it('leaves an edit of a part that is gone, and the taking out of one that was changed', () => {
  const removal = removalOf(base.document, ['/tests/tone']).changes;
  const gone = again([minutes(7)], after(base, edit('Remove', removal)));
  expect(gone.left).toEqual(['Minutes 7']);
  const changed = again([edit('Remove', removal)], after(base, minutes(3)));
  expect(changed.left).toEqual(['Remove']);
  expect(changed.draft.document.tests).toHaveProperty('tone');
});

it('makes what was typed into one field again as one edit, or not at all', () => {
  const typed = [
    title('O'),
    join('Title', put(base.document, ['title'], 'Ou')),
    join('Title', put(base.document, ['title'], 'Ours')),
  ];
  const beside = again(typed, after(base, minutes(3)));
  expect(beside.made).toBe(1);
  expect(after(beside.draft, undo).document).toEqual(after(base, minutes(3)).document);
  const against = again(typed, after(base, title('Theirs')));
  expect({ made: against.made, left: against.left }).toEqual({ made: 0, left: ['Title O'] });
  expect(against.draft.document).toMatchObject({ title: 'Theirs' });
});

it('never joins what was typed to the last edit of another window', () => {
  const on = after(base, title('O'));
  const there = after(on, minutes(3));
  const { draft } = again([join('Title', put(on.document, ['title'], 'Ours'))], there, on);
  expect(after(draft, undo).document).toEqual(there.document);
});

it('leaves out what was taken back here, and takes back here what was taken back of before, not what another window did last', () => {
  const there = after(base, minutes(3));
  expect(again([title('Ours'), undo], there)).toMatchObject({ entries: [], made: 0, left: [] });
  expect(again([title('Ours'), undo, redo], there).draft.document).toMatchObject({ title: 'Ours' });

  const on = after(base, title('Before'));
  const on2 = after(on, minutes(3));
  const { draft, made } = again([undo], on2, on);
  expect(made).toBe(1);
  expect(draft.document).toMatchObject({ title: base.document.title, tests: { tone: { minutes: 3 } } });
});

it('changes nothing in a list whose entries stand elsewhere by now', () => {
  const list = ['tests', 'tone', 'cautions'];
  const on = after(base, edit('One', put(base.document, list, ['One.'])));
  const here = edit('Say', [{ do: 'set', path: [...list, 0], value: 'Changed.' }]);
  expect(again([here], after(on, minutes(3)), on).left).toEqual([]);
  const there = after(on, edit('First', [{ do: 'insert', path: [...list, 0], at: 0, value: 'Theirs.' }]));
  const { draft, left } = again([here], there, on);
  expect(left).toEqual(['Say']);
  expect(draft.document).toEqual(there.document);
});
