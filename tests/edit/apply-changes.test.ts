import fc from 'fast-check';
import { expect, it } from 'vitest';
import { applyChanges, type Change, type Json } from '../../trees/edit/index.ts';
import { smallDocument } from '../support/trees.ts';
import { drawChanges, seeds } from './arbitrary-edits.ts';

type Entry = readonly [name: string, value: Json];

/** A change made by copying all that it is in: what making many at once has to come to. */
function copiedWith(holder: Json, change: Change, depth = 0): Json {
  const key = change.path[depth] ?? '';
  const isList = Array.isArray(holder);
  const entries: readonly Entry[] = Object.entries(holder as Readonly<Record<string, Json>>);
  const place = entries.findIndex(([name]) => name === String(key));
  const value = entries[place]?.[1] ?? null;
  const without = entries.toSpliced(place, 1);
  const withIt = (): readonly Entry[] => {
    if (depth < change.path.length - 1)
      return entries.with(place, [String(key), copiedWith(value, change, depth + 1)]);
    switch (change.do) {
      case 'set':
        return place < 0
          ? [...entries, [String(key), change.value]]
          : entries.with(place, [String(key), change.value]);
      case 'insert':
        return entries.toSpliced(change.at, 0, [String(key), change.value]);
      case 'remove':
        return without;
      case 'move':
        return without.toSpliced(change.at, 0, [String(key), value]);
    }
  };
  return isList ? withIt().map(([, item]) => item) : Object.fromEntries(withIt());
}

const document = smallDocument() as never;
const text = (value: Json): string => JSON.stringify(value);

it('changes made at once come to what they come to one by one, the order of keys included', () => {
  fc.assert(
    fc.property(seeds(40), (drawn) => {
      const changes = drawChanges(document, drawn);
      const made = applyChanges(document, changes);
      expect(made.ok && text(made.document)).toBe(
        text(changes.reduce<Json>((now, one) => copiedWith(now, one), document)),
      );
      const back = made.ok ? applyChanges(made.document, made.inverse) : made;
      expect(back.ok && text(back.document)).toBe(text(document));
    }),
  );
});

const NAMES = ['0', '7', '10', '4294967294', '4294967295', '01', 'a', 'b', '__proto__', 'constructor'];

const onRecord = fc.oneof(
  fc.record({
    do: fc.constantFrom('set', 'insert', 'remove', 'move'),
    name: fc.constantFrom(...NAMES),
    at: fc.nat(5),
  }),
);

it('names that JavaScript puts first, or that every object has, are entries like others', () => {
  fc.assert(
    fc.property(fc.array(onRecord, { maxLength: 30 }), (drawn) => {
      let now: Json = { record: {} };
      const changes: Change[] = [];
      for (const [value, one] of drawn.entries()) {
        const change = { do: one.do, path: ['record', one.name], at: one.at, value } as unknown as Change;
        const names = Object.keys((now as Readonly<Record<string, object>>)['record'] ?? {});
        const there = names.includes(one.name);
        const fits =
          one.do === 'set' ||
          (one.do === 'insert'
            ? !there && one.at <= names.length
            : there && (one.do === 'remove' || one.at < names.length));
        expect(applyChanges(now as never, [change]).ok).toBe(fits);
        if (!fits) continue;
        changes.push(change);
        now = copiedWith(now, change);
      }
      const made = applyChanges({ record: {} }, changes);
      expect(made.ok && text(made.document)).toBe(text(now));
      const back = made.ok ? applyChanges(made.document, made.inverse) : made;
      expect(back.ok && text(back.document)).toBe('{"record":{}}');
    }),
  );
});

it('what changes leave alone keeps its identity, and all that they are in is another', () => {
  const before = smallDocument();
  const made = applyChanges(before as never, [
    { do: 'set', path: ['unit', 'family'], value: 'X' },
    { do: 'set', path: ['unit', 'family'], value: 'Y' },
  ]);
  if (!made.ok) throw new Error(made.message);
  expect(made.document['tests']).toBe(before.tests);
  expect(made.document['unit']).not.toBe(before.unit);
  expect(before.unit.family).not.toBe('Y');
});

it('what an edit is said to add is no less than what its text grows by, and is taken back with it', () => {
  fc.assert(
    fc.property(seeds(12), (drawn) => {
      const made = applyChanges(document, drawChanges(document, drawn));
      if (!made.ok) throw new Error(made.message);
      const grows = JSON.stringify(made.document, null, 2).length - JSON.stringify(document, null, 2).length;
      // Empty records and lists are taken for a line longer than they are, and those filled count so in the document before.
      expect(Math.abs(made.grown.bytes - grows)).toBeLessThanOrEqual(16 * (1 + drawn.length));
      const back = applyChanges(made.document, made.inverse);
      expect(back.ok && back.grown.bytes + made.grown.bytes).toBeCloseTo(0, 9);
      expect(back.ok && back.grown.values + made.grown.values).toBeCloseTo(0, 9);
    }),
  );
});
