import { expect, it } from 'vitest';
import fc from 'fast-check';
import { applyChanges, changesTo } from '../../trees/edit/index.ts';
import type { JsonObject } from '../../trees/document/index.ts';
import { arbitraryEdited } from '../support/arbitrary-edit.ts';
import { arbitraryDocument } from '../support/arbitrary-tree.ts';
import { smallDocument } from '../support/trees.ts';

function leadTo(from: JsonObject, to: JsonObject): void {
  const applied = applyChanges(from, changesTo(from, to));
  expect(applied.ok ? JSON.stringify(applied.document) : applied.message).toBe(JSON.stringify(to));
}

function plain(document: object): JsonObject {
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

it('the changes from a document to an edited one make just that text of it', () => {
  fc.assert(
    fc.property(arbitraryEdited(12), ({ before, after }) => leadTo(before, after)),
    { numRuns: 200 },
  );
});

it('the changes between any two documents make the one of the other, to the byte', () => {
  fc.assert(
    fc.property(arbitraryDocument(), arbitraryDocument(), (one, other) => leadTo(plain(one), plain(other))),
    { numRuns: 150 },
  );
});

it('there are no changes to what is the same', () => {
  fc.assert(
    fc.property(arbitraryDocument(), (drawn) => {
      expect(changesTo(plain(drawn), plain(drawn))).toEqual([]);
    }),
  );
});

it('one field, one entry and one place in a list are one change each', () => {
  const before = plain(smallDocument());
  const field = smallDocument();
  field.tests['tone'] = { ...field.tests['tone'], minutes: 0.9 } as (typeof field.tests)[string];
  expect(changesTo(before, plain(field))).toEqual([
    { do: 'set', path: ['tests', 'tone', 'minutes'], value: 0.9 },
  ]);
  const list = smallDocument();
  list.cautions?.unshift('Mind the cell.');
  expect(changesTo(before, plain(list))).toEqual([
    { do: 'insert', path: ['cautions', 0], at: 0, value: 'Mind the cell.' },
  ]);
  const { border, ...others } = smallDocument().tests;
  const order = { ...smallDocument(), tests: { border, ...others } };
  expect(changesTo(before, plain(order))).toEqual([{ do: 'move', path: ['tests', 'border'], at: 0 }]);
});
