import { expect, it } from 'vitest';
import fc from 'fast-check';
import type { JsonObject } from '../../trees/document/index.ts';
import { mergeDrafts, tellConflict, tellDifferences } from '../../trees/edit/index.ts';
import { axisOf, findingOf, mustHave, stepOf, symptomOf, testOf } from '../document/parts.ts';
import { arbitraryEdited, arbitraryFork } from '../support/arbitrary-edit.ts';
import { smallDocument, type TreeDocument } from '../support/trees.ts';

type Edit = (document: TreeDocument) => void;

function made(edit: Edit = () => undefined): JsonObject {
  const document = smallDocument();
  edit(document);
  return JSON.parse(JSON.stringify(document)) as JsonObject;
}

/** Name and sentences of each part that an edit of the small tree changes. */
function told(edit: Edit) {
  return tellDifferences(made(), made(edit)).map(({ name, says }) => [name, ...says]);
}

function conflicts(theirs: Edit, yours: Edit) {
  const versions = { base: made(), theirs: made(theirs), yours: made(yours) };
  const merged = mergeDrafts(versions.base, versions.theirs, versions.yours);
  return merged.conflicts
    .map((conflict) => tellConflict(versions, conflict))
    .map(({ name, about, was, theirs: there, yours: here }) => ({
      name,
      about,
      was,
      theirs: there,
      yours: here,
    }));
}

const limit =
  (volts: number): Edit =>
  (document) => {
    const { good, low } = testOf(document, 'rail-in').results;
    Object.assign(mustHave(good?.band), { from: volts });
    Object.assign(mustHave(low?.band), { to: volts });
  };

it('a limit that has moved is told once, in the unit of the test, though it stands in two bands', () => {
  expect(told(limit(4.8))).toEqual([
    ['Test “5 V at the converter”', 'Limit between “Low” and “In limits”: 4.8 V, was 4.75 V'],
  ]);
});

it('a limit that is a ratio is told as one', () => {
  expect(
    told((document) => {
      const { good, drop } = testOf(document, 'rail-far').results;
      Object.assign(mustHave(good?.band), { from: 0.95 });
      Object.assign(mustHave(drop?.band), { to: 0.95 });
    }),
  ).toEqual([
    [
      'Test “5 V at the panel”',
      'Limit between “Drop” and “No drop”: 0.95 × “5 V at the converter”, was 0.96 × “5 V at the converter”',
    ],
  ]);
});

it('minutes, needs and cautions are told in the words of the trade', () => {
  expect(
    told((document) => {
      const tone = testOf(document, 'tone');
      tone.minutes = 1.2;
      tone.needs = { power: 'on', shell: 'open' };
      tone.cautions = ['Mind your ears.'];
    }),
  ).toEqual([
    [
      'Test “Tone”',
      'Needs “Shell”: “Open”, was not given',
      'Minutes: 1.2, was 0.3',
      'Caution added: “Mind your ears.”',
    ],
  ]);
});

it('where a branch leads is told by the titles of what it leads to', () => {
  expect(
    told((document) => {
      const { then } = stepOf(document, 'dark-screen', 'look');
      Object.assign(mustHave(then['whole']), { go: 'finding:joint-open' });
      Object.assign(mustHave(then['none']), { weight: 5 });
      delete then['partial'];
    }),
  ).toEqual([
    [
      'Step “Picture” of “Dark screen”',
      '“Whole” leads to: the finding “Rail joint open”, was the path of “No sound”',
      'Weight of “None”: 5, was 3',
      '“Partial” leads to: no longer given, was the finding “Ribbon half seated”',
    ],
  ]);
});

it('parts that come, go and move are told with what they hold and where they stand', () => {
  expect(
    told((document) => {
      const { border, ...others } = document.tests;
      document.tests = { border: mustHave(border), ...others };
      delete symptomOf(document, 'dark-screen').steps?.['look-again'];
      document.findings['dirty'] = { ...findingOf(document, 'panel-dead'), title: 'Dirty' };
    }),
  ).toEqual([
    ['Test “Picture”', 'Stands first in its list'],
    ['Finding “Dirty”', 'New: a remedy of 12 min, because “So it is in the small unit.”'],
    ['Step “5 V at the panel” of “Dark screen”', 'Taken out: 2 branches'],
  ]);
});

it('a changeover is told by the states that it leads between', () => {
  expect(told((document) => (mustHave(axisOf(document, 'shell').changes[0]).minutes = 3))).toEqual([
    ['Bench states “Shell”', 'Minutes of the changeover from “Closed” to “Open”: 3, was 2'],
  ]);
});

it('of long texts only what differs is quoted, with some words around', () => {
  const long = (word: string): Edit => {
    const ask = `${'Set the meter to ohms and wait until it has settled. '.repeat(3)}Then press ${word} the tab. ${'Write it down before you let go. '.repeat(3)}`;
    return (document) => (testOf(document, 'tone').ask = ask);
  };
  const [difference] = tellDifferences(made(long('on')), made(long('beside')));
  expect(difference?.says).toEqual([
    'What to do: …until it has settled. Then press beside the tab. Write it down before…, was …until it has settled. Then press on the tab. Write it down before…',
  ]);
});

it('every difference is told, and every sentence is words', () => {
  fc.assert(
    fc.property(arbitraryEdited(), ({ before, after }) => {
      for (const { name, says } of tellDifferences(before, after)) {
        expect(says.length).toBeGreaterThan(0);
        for (const words of [name, ...says]) expect(words).not.toMatch(/undefined|\[object|NaN|^$|: $/);
      }
    }),
    { numRuns: 200, interruptAfterTimeLimit: 20_000 },
  );
});

it('a conflict is told with what each version has', () => {
  expect(
    conflicts(
      (one) => (testOf(one, 'tone').minutes = 1),
      (one) => (testOf(one, 'tone').minutes = 2),
    ),
  ).toEqual([{ name: 'Test “Tone”', about: 'Minutes', was: '0.3', theirs: ['1'], yours: ['2'] }]);
});

it('limits in conflict are told as each side has moved them', () => {
  expect(conflicts(limit(4.7), limit(4.8))).toEqual([
    {
      name: 'Test “5 V at the converter”',
      about: 'Limits between the results',
      was: '“Low” below 4.75 V; “In limits” from 4.75 V to 5.25 V; “High” from 5.25 V',
      theirs: ['Limit between “Low” and “In limits”: 4.7 V, was 4.75 V'],
      yours: ['Limit between “Low” and “In limits”: 4.8 V, was 4.75 V'],
    },
  ]);
});

it('a part that one side has taken out and the other changed is told with the changes', () => {
  expect(
    conflicts(
      (theirs) => delete symptomOf(theirs, 'dark-screen').steps?.['look-again'],
      (yours) =>
        Object.assign(mustHave(stepOf(yours, 'dark-screen', 'look-again').then['good']), { weight: 4 }),
    ),
  ).toEqual([
    {
      name: 'Step “5 V at the panel” of “Dark screen”',
      about: 'Whether it stays',
      was: '2 branches',
      theirs: ['Taken out'],
      yours: ['Kept, with changes', 'Weight of “No drop”: 4, was not given'],
    },
  ]);
});

it('two trees begun under one id are told as such, part by part', () => {
  const versions = {
    base: {},
    theirs: made(),
    yours: made((yours) => {
      yours.title = 'Mine';
      yours.unit = { family: 'Mine' };
      testOf(yours, 'tone').minutes = 2;
    }),
  };
  const told = mergeDrafts({}, versions.theirs, versions.yours).conflicts.map((one) =>
    tellConflict(versions, one),
  );
  expect(told.map(({ name, about, was, theirs, yours }) => [name, about, was, theirs, yours])).toEqual([
    ['The tree itself', 'Title', 'Not there', ['“Small unit”'], ['“Mine”']],
    ['The tree itself', 'Units', 'Not there', ['“Small unit”'], ['“Mine”']],
    [
      'Test “Tone”',
      'Which of the two',
      'Not there',
      ['As added: by ear, 0.3 min, results “Heard”, “Silent”'],
      ['As added: by ear, 2 min, results “Heard”, “Silent”'],
    ],
  ]);
});

it('every conflict is told for both sides, and never the same', () => {
  fc.assert(
    fc.property(arbitraryFork(), (versions) => {
      for (const conflict of mergeDrafts(versions.base, versions.theirs, versions.yours).conflicts) {
        const { name, about, was, theirs, yours } = tellConflict(versions, conflict);
        for (const words of [name, about, was, ...theirs, ...yours])
          expect(words).not.toMatch(/undefined|\[object|NaN|^$/);
        expect(theirs.length * yours.length).toBeGreaterThan(0);
      }
    }),
    { numRuns: 200, interruptAfterTimeLimit: 20_000 },
  );
});
