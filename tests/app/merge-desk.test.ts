import { expect, it } from 'vitest';
import { nothingChosen } from '../../app/editor/compare/chosen-before.ts';
import { MergeDesk } from '../../app/editor/compare/merge-desk.svelte.ts';
import type { JsonObject } from '../../trees/document/index.ts';
import { applyChanges } from '../../trees/edit/index.ts';
import { testOf } from '../document/parts.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

type Edit = (document: TreeDocument) => void;

function made(edit: Edit = () => undefined): JsonObject {
  const document = smallDocument();
  edit(document);
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

function desk(theirs: Edit, yours: Edit): MergeDesk {
  return new MergeDesk({ base: made(), theirs: made(theirs), yours: made(yours) });
}

/** The draft after the merge's changes. */
function after(merge: MergeDesk): TreeDocument {
  const applied = applyChanges(merge.versions.yours, merge.changes());
  if (!applied.ok) throw new Error(applied.message);
  return applied.document as unknown as TreeDocument;
}

it('nothing is chosen beforehand, and what is chosen is what the draft becomes', () => {
  const merge = desk(
    (theirs) => {
      testOf(theirs, 'tone').minutes = 1;
      theirs.summary = 'Theirs';
    },
    (yours) => (testOf(yours, 'tone').minutes = 2),
  );
  expect([merge.choices, merge.left, merge.conflicts.length]).toEqual([{}, 1, 1]);
  merge.choose('/tests/tone/minutes', 'theirs');
  expect(merge.left).toBe(0);
  expect(testOf(after(merge), 'tone').minutes).toBe(1);
  merge.choose('/tests/tone/minutes', 'yours');
  expect(testOf(after(merge), 'tone').minutes).toBe(2);
  expect(after(merge).summary).toBe('Theirs');
});

it('errors that two sound edits make together are counted before the merge', () => {
  const merge = desk(
    (theirs) => {
      delete theirs.findings['volume-down'];
      delete theirs.symptoms['no-sound']?.weights;
      const listen = theirs.symptoms['no-sound']?.steps?.['listen'];
      if (listen?.then['heard'] !== undefined) listen.then['heard'].go = 'finding:speaker-open';
    },
    (yours) => {
      const look = yours.symptoms['dark-screen']?.steps?.['look'];
      if (look?.then['whole'] !== undefined) look.then['whole'].go = 'finding:volume-down';
    },
  );
  expect(merge.conflicts).toEqual([]);
  expect(merge.errors.map(({ rule }) => rule)).toEqual(['unknown-finding']);
});

it('a draft that has what was published already needs no changes', () => {
  const same: Edit = (document) => (document.summary = 'Both');
  const merge = desk(same, same);
  expect([merge.left, merge.changes()]).toEqual([0, []]);
  expect(merge.theirs).toHaveLength(1);
});

/** A title and the minutes of a test, which both sides change otherwise. */
function twice(before = nothingChosen(), minutes = 2): MergeDesk {
  const versions = {
    base: made(),
    theirs: made((theirs) => {
      theirs.title = 'Theirs';
      testOf(theirs, 'tone').minutes = 1;
    }),
    yours: made((yours) => {
      yours.title = 'Yours';
      testOf(yours, 'tone').minutes = minutes;
    }),
  };
  return new MergeDesk(versions, before);
}

it('choosing for the rest leaves what has been chosen, and for all once nothing is left; both are taken back', () => {
  const merge = twice();
  merge.choose('/title', 'yours');
  merge.chooseRest('theirs');
  expect(merge.choices).toEqual({ '/title': 'yours', '/tests/tone/minutes': 'theirs' });
  merge.chooseRest('theirs');
  expect(after(merge).title).toBe('Theirs');
  merge.takeBack();
  expect(merge.choices).toEqual({ '/title': 'yours', '/tests/tone/minutes': 'theirs' });
  merge.choose('/title', 'theirs');
  merge.takeBack();
  expect(after(merge).title).toBe('Theirs');
});

it('a merge that was left is found as it was decided, but for what says something else now', () => {
  const before = nothingChosen();
  twice(before).chooseRest('theirs');
  expect(twice(before).left).toBe(0);
  expect(twice(before, 3).choices).toEqual({ '/title': 'theirs' });
});

it('an error about a finding that one side took out names it by its title', () => {
  const merge = desk(
    (theirs) => {
      delete theirs.findings['volume-down'];
      delete theirs.symptoms['no-sound']?.weights;
      const listen = theirs.symptoms['no-sound']?.steps?.['listen'];
      if (listen?.then['heard'] !== undefined) listen.then['heard'].go = 'finding:speaker-open';
    },
    (yours) => {
      const look = yours.symptoms['dark-screen']?.steps?.['look'];
      if (look?.then['whole'] !== undefined) look.then['whole'].go = 'finding:volume-down';
    },
  );
  expect(merge.errors[0]?.message).toBe(
    `There is no finding “${smallDocument().findings['volume-down']?.title ?? ''}”.`,
  );
});
