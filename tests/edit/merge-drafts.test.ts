import { expect, it } from 'vitest';
import fc from 'fast-check';
import { compareTrees, sameText, type JsonObject } from '../../trees/document/index.ts';
import { mergeDrafts, type Choices, type Side } from '../../trees/edit/index.ts';
import { axisOf, findingOf, mustHave, stepOf, symptomOf, testOf } from '../document/parts.ts';
import { arbitraryFork } from '../support/arbitrary-edit.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

/** Large documents shrink slowly; what a failure is about shows before the last of them. */
const QUICK = { interruptAfterTimeLimit: 20_000 };

type Edit = (document: TreeDocument) => void;

function fork(theirEdit: Edit, yourEdit: Edit, choices: Choices = {}) {
  const merged = mergeDrafts(
    made(() => undefined),
    made(theirEdit),
    made(yourEdit),
    choices,
  );
  return { ...merged, document: merged.document as unknown as TreeDocument };
}

function made(edit: Edit): JsonObject {
  const document = smallDocument();
  edit(document);
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

const minutes =
  (test: string, value: number): Edit =>
  (document) =>
    (testOf(document, test).minutes = value);

it('where one side has changed nothing, the other’s text stands as it is', () => {
  fc.assert(
    fc.property(arbitraryFork(8), ({ base, yours }) => {
      for (const merged of [mergeDrafts(base, yours, base), mergeDrafts(base, base, yours)]) {
        expect(JSON.stringify(merged.document)).toBe(JSON.stringify(yours));
        expect(merged.conflicts).toEqual([]);
      }
    }),
    { numRuns: 150, ...QUICK },
  );
});

it('what both sides have made alike is no conflict', () => {
  fc.assert(
    fc.property(arbitraryFork(8), ({ base, yours }) => {
      const { document, conflicts } = mergeDrafts(base, yours, yours);
      expect(JSON.stringify(document)).toBe(JSON.stringify(yours));
      expect(conflicts).toEqual([]);
    }),
  );
});

it('edits of different parts merge without conflict, and the result differs from the base by both', () => {
  fc.assert(
    fc.property(arbitraryFork(), ({ base, theirs, yours }) => {
      const mine = differing(base, yours);
      const others = differing(base, theirs);
      fc.pre([...mine, ...others].every(({ part }) => !part.startsWith('/interlocks')));
      fc.pre(!mine.some((one) => others.some((other) => touch(one.part, other.part))));
      const { document, conflicts } = mergeDrafts(base, theirs, yours);
      expect(conflicts).toEqual([]);
      const both = [...mine, ...others].sort(byPart);
      expect([...differing(base, document)].sort(byPart)).toEqual(both);
    }),
    { numRuns: 200, ...QUICK },
  );
});

/**
 * What differs in content; where a part stands may be settled between neighbours of both sides. Fields come in the order of the
 * document that they are in, which of a step's branches says nothing: one side may have changed that, the other the fields.
 */
function differing(base: JsonObject, document: JsonObject) {
  return compareTrees(base, document).flatMap(({ part, kind, fields }) =>
    kind === 'moved' ? [] : [{ part, kind, fields: fields.toSorted((a, b) => (a.at < b.at ? -1 : 1)) }],
  );
}

function byPart(one: { part: string }, other: { part: string }): number {
  return one.part < other.part ? -1 : 1;
}

function touch(one: string, other: string): boolean {
  if (one === '' || other === '') return one === other;
  return `${one}/`.startsWith(`${other}/`) || `${other}/`.startsWith(`${one}/`);
}

it('a merge is the same from either side but for order, once the conflicts are decided alike', () => {
  fc.assert(
    fc.property(arbitraryFork(), fc.boolean(), ({ base, theirs, yours }, first) => {
      const [one, other] = [first ? 'theirs' : 'yours', first ? 'yours' : 'theirs'] as const;
      const there = mergeDrafts(base, theirs, yours, allFor(mergeDrafts(base, theirs, yours), one));
      const back = mergeDrafts(base, yours, theirs, allFor(mergeDrafts(base, yours, theirs), other));
      expect(back.conflicts.map(({ at }) => at).sort()).toEqual(there.conflicts.map(({ at }) => at).sort());
      expect(unordered(back.document)).toEqual(unordered(there.document));
    }),
    { numRuns: 200, ...QUICK },
  );
});

function allFor({ conflicts }: { conflicts: readonly { at: string }[] }, side: Side): Choices {
  return Object.fromEntries(conflicts.map(({ at }) => [at, side]));
}

/** The document with the entries of every list sorted by their text. */
function unordered(value: unknown): unknown {
  if (Array.isArray(value))
    return value.map(unordered).sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, one]) => [key, unordered(one)] as const);
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
}

it('every conflict is a field that the sides have as they say', () => {
  fc.assert(
    fc.property(arbitraryFork(), ({ base, theirs, yours }) => {
      for (const { fields } of mergeDrafts(base, theirs, yours).conflicts)
        for (const field of fields) {
          expect(sameText(field.theirs, field.yours), field.at).toBe(false);
          expect(sameText(field.base, field.theirs), field.at).toBe(false);
          expect(sameText(field.base, field.yours), field.at).toBe(false);
        }
    }),
  );
});

it('one field changed in two ways is a conflict, yours until theirs is chosen', () => {
  const at = '/tests/tone/minutes';
  const { document, conflicts } = fork(minutes('tone', 1), minutes('tone', 2));
  expect(conflicts).toEqual([{ at, part: '/tests/tone', fields: [{ at, base: 0.3, theirs: 1, yours: 2 }] }]);
  expect(testOf(document, 'tone').minutes).toBe(2);
  const chosen = fork(minutes('tone', 1), minutes('tone', 2), { [at]: 'theirs' });
  expect(testOf(chosen.document, 'tone').minutes).toBe(1);
  expect(chosen.conflicts).toHaveLength(1);
});

it('different fields of one test merge', () => {
  const { document, conflicts } = fork(minutes('tone', 1), (mine) => (testOf(mine, 'tone').title = 'Sound'));
  expect(conflicts).toEqual([]);
  expect(testOf(document, 'tone')).toMatchObject({ title: 'Sound', minutes: 1 });
});

it('to take out what the other side has changed is a conflict, whichever side does which', () => {
  const gone: Edit = (document) => delete symptomOf(document, 'dark-screen').steps?.['look-again'];
  const changed: Edit = (document) =>
    (mustHave(stepOf(document, 'dark-screen', 'look-again').then['good']).weight = 4);
  const at = '/symptoms/dark-screen/steps/look-again';
  const theirsGone = fork(gone, changed);
  expect(theirsGone.conflicts).toMatchObject([{ at, part: at, fields: [{ at }] }]);
  expect(theirsGone.conflicts[0]?.fields[0]).not.toHaveProperty('theirs');
  expect(symptomOf(theirsGone.document, 'dark-screen').steps).toHaveProperty('look-again');
  const yoursGone = fork(changed, gone, { [at]: 'theirs' });
  expect(stepOf(yoursGone.document, 'dark-screen', 'look-again').then['good']?.weight).toBe(4);
});

it('the same id added on both sides with other content is a conflict, with the same content none', () => {
  const add =
    (title: string): Edit =>
    (document) =>
      (document.tests['smell'] = { ...testOf(document, 'tone'), title });
  expect(fork(add('Smell'), add('Smell')).conflicts).toEqual([]);
  const { conflicts, document } = fork(add('Smell'), add('Scent'));
  expect(conflicts.map(({ at }) => at)).toEqual(['/tests/smell']);
  expect(testOf(document, 'smell').title).toBe('Scent');
});

it('a limit that both have moved is one thing to decide, as it stands in two bands', () => {
  const limit =
    (volts: number): Edit =>
    (document) => {
      const { good, low } = testOf(document, 'rail-in').results;
      Object.assign(mustHave(good).band ?? {}, { from: volts });
      Object.assign(mustHave(low).band ?? {}, { to: volts });
    };
  const at = '/tests/rail-in/results/*/band';
  const { conflicts, document } = fork(limit(4.7), limit(4.8), { [at]: 'theirs' });
  expect(conflicts.map((one) => [one.at, one.fields.length])).toEqual([[at, 2]]);
  expect(testOf(document, 'rail-in').results).toMatchObject({
    good: { band: { from: 4.7, to: 5.25 } },
    low: { band: { to: 4.7 } },
  });
});

it('theirs comes behind the neighbour that it follows there, and yours stays in its order', () => {
  const add =
    (id: string, before: string): Edit =>
    (document) => {
      const entries = Object.entries(document.tests);
      const at = entries.findIndex(([name]) => name === before);
      document.tests = Object.fromEntries(entries.toSpliced(at, 0, [id, testOf(document, 'tone')]));
    };
  const { document } = fork(add('theirs', 'border'), add('yours', 'rail-in'));
  expect(Object.keys(document.tests)).toEqual([
    'supply-resistance',
    'yours',
    'rail-in',
    'rail-far',
    'theirs',
    'border',
    'tone',
  ]);
});

it('an order that only they have changed is taken', () => {
  const turned: Edit = (document) =>
    (document.tests = Object.fromEntries(Object.entries(document.tests).toReversed()));
  const { document } = fork(turned, minutes('tone', 1));
  expect(Object.keys(document.tests)).toEqual(Object.keys(smallDocument().tests).toReversed());
  expect(testOf(document, 'tone').minutes).toBe(1);
});

it('another first result on either side is for a person to decide', () => {
  const order =
    (...ids: string[]): Edit =>
    (document) => {
      const { results } = testOf(document, 'border');
      testOf(document, 'border').results = Object.fromEntries(ids.map((id) => [id, mustHave(results[id])]));
    };
  const at = '/tests/border/results';
  const turned = [order('partial', 'whole', 'none'), order('none', 'whole', 'partial')] as const;
  expect(fork(...turned).conflicts.map((one) => one.at)).toEqual([at]);
  const { document } = fork(...turned, { [at]: 'theirs' });
  expect(Object.keys(testOf(document, 'border').results)).toEqual(['partial', 'whole', 'none']);
});

it('cautions that both have added in one place all stand', () => {
  const { document, conflicts } = fork(
    (theirs) => theirs.cautions?.push('Mind the cell.', 'Mind the glass.'),
    (yours) => yours.cautions?.push('Mind the supply.', 'Mind the glass.'),
  );
  expect(conflicts).toEqual([]);
  expect(document.cautions?.slice(1)).toEqual(['Mind the supply.', 'Mind the glass.', 'Mind the cell.']);
});

it('a remedy’s acts that both have put in one place are for a person to order', () => {
  const add =
    (act: string): Edit =>
    (document) =>
      findingOf(document, 'panel-dead').remedy.steps.unshift(act);
  const at = '/findings/panel-dead/remedy/steps/0/+';
  expect(fork(add('Cool it.'), add('Clean it.')).conflicts.map((one) => one.at)).toEqual([at]);
  const { document } = fork(add('Cool it.'), add('Clean it.'), { [at]: 'theirs' });
  expect(findingOf(document, 'panel-dead').remedy.steps).toEqual(['Cool it.', 'Mend it.']);
});

it('an act that one side has moved and the other rewritten leaves the whole list to decide', () => {
  const three = ['Unplug.', 'Lift.', 'Clean.'];
  const at = '/findings/panel-dead/remedy/steps';
  const steps =
    (acts: string[]): Edit =>
    (document) =>
      (findingOf(document, 'panel-dead').remedy.steps = acts);
  const merged = mergeDrafts(
    made(steps(three)),
    made(steps(['Lift.', 'Clean.', 'Unplug.'])),
    made(steps(['Unplug at the wall.', 'Lift.', 'Clean.'])),
  );
  expect(merged.conflicts.map((one) => one.at)).toEqual([at]);
});

it('minutes and cautions of one changeover merge, though another has come before it', () => {
  const { document, conflicts } = fork(
    (theirs) =>
      axisOf(theirs, 'shell').changes.unshift({ from: 'open', to: 'open', minutes: 1, say: 'Turn it.' }),
    (yours) => (mustHave(axisOf(yours, 'shell').changes[0]).minutes = 5),
  );
  expect(conflicts).toEqual([]);
  expect(axisOf(document, 'shell').changes.map((change) => change.minutes)).toEqual([1, 5, 1.5]);
});
