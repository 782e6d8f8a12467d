import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DOCUMENT_LIMITS } from '../../trees/document/index.ts';
import {
  applyEntry,
  changesTo,
  copyOf,
  draftEntrySchema,
  jsonValues,
  mergeDrafts,
  openDraft,
  pasteOf,
  removalOf,
  textOf,
  type Change,
  type Draft,
  type DraftDocument,
} from '../../trees/edit/index.ts';
import { largeTree } from '../support/large-tree.ts';

const TEXT = JSON.stringify(largeTree());
/** Values of one request that the contract takes at most. */
const AT_ONCE = 200_000;

function opened(): Draft {
  const draft = openDraft(TEXT);
  if (!draft.ok) throw new Error(draft.message);
  return draft.draft;
}

/** Makes an act, takes it back and makes it again: each is taken, and the act can be recorded in one request. */
function goesThrough(draft: Draft, changes: readonly Change[]): Draft {
  const entry = { kind: 'edit', what: 'Act', changes } as const;
  expect(draftEntrySchema.safeParse(entry).success).toBe(true);
  expect(jsonValues([entry])).toBeLessThanOrEqual(AT_ONCE);
  const made = applyEntry(draft, entry);
  if (!made.ok) throw new Error(made.message);
  const back = applyEntry(made.draft, { kind: 'undo' });
  if (!back.ok) throw new Error(back.message);
  expect(JSON.stringify(back.draft.document)).toBe(JSON.stringify(draft.document));
  const again = applyEntry(back.draft, { kind: 'redo' });
  if (!again.ok) throw new Error(again.message);
  expect(textOf(again.draft)).toBe(textOf(made.draft));
  return made.draft;
}

const draft = opened();
const STEPS = stepsOf(draft.document).map((id) => `/symptoms/symptom/steps/${id}`);

function stepsOf({ symptoms }: DraftDocument): readonly string[] {
  const { symptom } = symptoms as Readonly<Record<string, { readonly steps: object }>>;
  return Object.keys(symptom?.steps ?? {});
}

/** The document with every `go` and every title replaced: as much as two people can change at once in so large a tree. */
function rewritten(by: string): DraftDocument {
  return JSON.parse(TEXT.replaceAll(/"title":"/g, `"title":"${by} `)) as DraftDocument;
}

describe('what is done at once to a tree of 2,000 steps can be recorded, taken back and made again', () => {
  it('pasting all of its steps, and all of those once more', () => {
    expect(STEPS).toHaveLength(2000);
    const once = goesThrough(
      draft,
      pasteOf(draft.document, copyOf(draft.document, STEPS), { symptom: 'symptom' }).changes,
    );
    const twice = pasteOf(once.document, copyOf(once.document, STEPS), { symptom: 'symptom' }).changes;
    expect(stepsOf(goesThrough(once, twice).document)).toHaveLength(6000);
  });

  it('pasting it whole into a tree that has nothing', () => {
    const all = [
      '/symptoms/symptom',
      ...Object.keys(draft.document['findings'] as object).map((id) => `/findings/${id}`),
    ];
    const empty = openDraft('{"id":"empty","title":"Empty","unit":{"family":"None"}}');
    if (!empty.ok) throw new Error(empty.message);
    goesThrough(
      empty.draft,
      pasteOf(empty.draft.document, copyOf(draft.document, all), { symptom: null }).changes,
    );
  });

  it('merging what two people have each changed in every part of it', () => {
    const theirs = rewritten('Theirs');
    const yours = JSON.parse(TEXT.replaceAll(/"go":/g, '"weight":2,"go":')) as DraftDocument;
    const merged = mergeDrafts(draft.document, theirs, yours, {});
    expect(merged.conflicts).toEqual([]);
    goesThrough(draft, changesTo(draft.document, merged.document));
  });

  it('removing any of its parts, with what hangs on them', () => {
    const parts = ['tests', 'findings'].flatMap((kind) =>
      Object.keys(draft.document[kind] as object).map((id) => `/${kind}/${id}`),
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.constantFrom(...parts, ...STEPS), { minLength: 1, maxLength: 8 }),
        (pointers) => {
          goesThrough(draft, removalOf(draft.document, pointers).changes);
        },
      ),
      { numRuns: 15 },
    );
  });
});

it('removing all of its 2,000 steps leaves none, and nothing that led to one', () => {
  const left = goesThrough(draft, removalOf(draft.document, STEPS).changes);
  expect(stepsOf(left.document)).toEqual([]);
  expect((left.document['symptoms'] as { symptom: object }).symptom).not.toHaveProperty('first');
});

it('a draft may grow to what is published at most', () => {
  expect(draft.size.bytes * 5).toBeLessThan(DOCUMENT_LIMITS.bytes);
  expect(draft.size.bytes).toBeGreaterThanOrEqual(JSON.stringify(draft.document, null, 2).length);
  expect(draft.size.bytes).toBeLessThan(1.1 * JSON.stringify(draft.document, null, 2).length);
  expect(draft.size.values * 10).toBeLessThan(DOCUMENT_LIMITS.values);
});
