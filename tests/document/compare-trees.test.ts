import { expect, it } from 'vitest';
import fc from 'fast-check';
import {
  compareTrees,
  isList,
  isRecord,
  pathOf,
  valueAt,
  type Difference,
  type Json,
  type JsonObject,
} from '../../trees/document/index.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { arbitraryEdited } from '../support/arbitrary-edit.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';
import { findingOf, mustHave, stepOf, symptomOf, testOf } from './parts.ts';

function differences(change: (document: TreeDocument) => void): readonly Difference[] {
  const after = smallDocument();
  change(after);
  return compareTrees(plain(smallDocument()), plain(after));
}

function only(change: (document: TreeDocument) => void) {
  const [one, ...more] = differences(change);
  expect(more).toEqual([]);
  return mustHave(one);
}

function plain(document: TreeDocument): JsonObject {
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

it('a document does not differ from itself, whatever the order of the keys that say nothing', () => {
  fc.assert(
    fc.property(arbitraryDocument(), (drawn) => {
      const document = plain(drawn);
      expect(compareTrees(document, plain(drawn))).toEqual([]);
      const turned = Object.fromEntries(Object.entries(document).toReversed());
      expect(compareTrees(document, turned)).toEqual([]);
    }),
  );
});

it('a changed field is told with what it was and what it is', () => {
  expect(differences((document) => (testOf(document, 'rail-in').minutes = 1.2))).toEqual([
    {
      part: '/tests/rail-in',
      kind: 'changed',
      title: '5 V at the converter',
      moved: false,
      fields: [{ at: '/tests/rail-in/minutes', before: 0.8, after: 1.2 }],
    },
  ]);
});

it('a test that comes or goes is one difference, at its place in the document that has it', () => {
  const [come, ...more] = differences((document) => {
    document.tests['smell'] = { ...testOf(document, 'tone'), title: 'Smell' };
  });
  expect(more).toEqual([]);
  expect(come).toMatchObject({ part: '/tests/smell', kind: 'added', title: 'Smell' });
  const [gone, ...rest] = differences((document) => delete document.tests['tone']);
  expect(rest).toEqual([]);
  expect(gone).toMatchObject({ part: '/tests/tone', kind: 'removed', title: 'Tone' });
});

it('a caution put before others is one difference', () => {
  const { fields } = only((document) => document.cautions?.unshift('Mind the cell.'));
  expect(fields).toEqual([{ at: '/cautions/0', after: 'Mind the cell.' }]);
});

it('a remedy’s act that stands elsewhere has moved, and is neither gone nor new', () => {
  const before = smallDocument();
  findingOf(before, 'panel-dead').remedy.steps = ['Unplug.', 'Lift.', 'Clean.'];
  const after = structuredClone(before);
  findingOf(after, 'panel-dead').remedy.steps = ['Lift.', 'Clean.', 'Unplug.'];
  const steps = '/findings/panel-dead/remedy/steps';
  expect(compareTrees(plain(before), plain(after))[0]?.fields).toEqual([
    { at: `${steps}/2`, before: 'Unplug.', after: 'Unplug.', movedFrom: `${steps}/0` },
  ]);
});

it('a changeover whose minutes change is the same changeover', () => {
  const { part, fields } = only((document) => {
    const { changes } = mustHave(document.bench?.['shell']);
    changes.unshift({ from: 'open', to: 'open', minutes: 0, say: 'Turn it over.' });
    mustHave(changes[1]).minutes = 3;
  });
  expect(part).toBe('/bench/shell');
  expect(fields.map(({ at }) => at)).toEqual(['/bench/shell/changes/1/minutes', '/bench/shell/changes/0']);
});

it('an interlock is known again by what it bars, although another has come before it', () => {
  const told = differences((document) => {
    const [first] = mustHave(document.interlocks);
    document.interlocks?.unshift({ change: { shell: 'open' }, until: { tone: ['heard'] }, because: 'Hot.' });
    mustHave(first).because = 'It burns.';
  });
  expect(told).toMatchObject([
    { part: '/interlocks/0', kind: 'added', title: 'Hot.' },
    { part: '/interlocks/1', kind: 'changed', fields: [{ at: '/interlocks/1/because' }] },
  ]);
});

it('the steps of a symptom that stays are parts of their own, and a symptom that goes takes its steps along', () => {
  const told = differences((document) => {
    delete document.symptoms['no-sound'];
    delete symptomOf(document, 'dark-screen').steps?.['look-again'];
    mustHave(stepOf(document, 'dark-screen', 'look').then['none']).go = 'far';
  });
  expect(told.map(({ part, kind }) => [part, kind])).toEqual([
    ['/symptoms/no-sound', 'removed'],
    ['/symptoms/dark-screen/steps/look', 'changed'],
    ['/symptoms/dark-screen/steps/look-again', 'removed'],
  ]);
});

it('another first result is a difference, as it is the one that a sound unit gives', () => {
  const { fields } = only((document) => {
    const tone = testOf(document, 'tone');
    tone.results = { silent: mustHave(tone.results['silent']), heard: mustHave(tone.results['heard']) };
  });
  expect(fields).toEqual([
    { at: '/tests/tone/results', before: ['heard', 'silent'], after: ['silent', 'heard'] },
  ]);
});

it('of tests in another order only those that must are told as moved', () => {
  const told = differences((document) => {
    const { border, ...others } = document.tests;
    document.tests = { border: mustHave(border), ...others };
  });
  expect(told.map(({ part, kind, moved }) => [part, kind, moved])).toEqual([
    ['/tests/border', 'moved', true],
  ]);
});

it('every field that differs lies under exactly one difference, and under one of its fields', () => {
  fc.assert(
    fc.property(arbitraryEdited(), ({ before, after }) => {
      const told = compareTrees(before, after);
      const fields = told.flatMap((one) => one.fields);
      for (const leaf of changedLeaves(before, after)) {
        const covering = told.filter((one) => one.fields.some(({ at }) => covers(at, leaf)));
        expect(covering, leaf).toHaveLength(1);
      }
      for (const { at, before: was, after: is } of fields)
        expect(was === undefined && is === undefined, at).toBe(false);
      expect(new Set(told.map(({ part, kind }) => `${kind === 'removed' ? '-' : ''}${part}`)).size).toBe(
        told.length,
      );
    }),
    { numRuns: 200 },
  );
});

it('what is told as before and after stands there in the two documents', () => {
  fc.assert(
    fc.property(arbitraryEdited(), ({ before, after }) => {
      for (const { at, before: was, after: is, movedFrom } of compareTrees(before, after).flatMap(
        (one) => one.fields,
      )) {
        const held = is === undefined ? valueAt(before, pathOf(at)) : valueAt(after, pathOf(at));
        if (isOrder(at)) continue;
        expect(held).toEqual(is ?? was);
        if (movedFrom !== undefined) expect(valueAt(before, pathOf(movedFrom))).toEqual(was);
      }
    }),
    { numRuns: 150 },
  );
});

function isOrder(at: string): boolean {
  return /^\/(?:tests\/[^/]+\/results|bench\/[^/]+\/states)$/.test(at);
}

/** Whether a field is this leaf, holds it, or is an entry of the list that the leaf is. */
function covers(at: string, leaf: string): boolean {
  return at === leaf || leaf.startsWith(`${at}/`) || at.startsWith(`${leaf}/`);
}

/** Scalars and lists reached through records alone that are not the same in both; interlocks, whose places shift, left out. */
function changedLeaves(before: JsonObject, after: JsonObject): readonly string[] {
  const former = leaves(before, '');
  const latter = leaves(after, '');
  const all = new Set([...former.keys(), ...latter.keys()]);
  return [...all].filter((at) => at !== '/interlocks' && former.get(at) !== latter.get(at));
}

function leaves(value: Json, at: string): ReadonlyMap<string, string> {
  if (isRecord(value))
    return new Map(Object.entries(value).flatMap(([key, one]) => [...leaves(one, `${at}/${key}`)]));
  return isList(value) && value.length === 0 ? new Map() : new Map([[at, sorted(value)]]);
}

function sorted(value: Json): string {
  return JSON.stringify(value, (_, one: Json) =>
    isRecord(one) ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1))) : one,
  );
}
