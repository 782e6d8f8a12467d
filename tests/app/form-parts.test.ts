import { describe, expect, it } from 'vitest';
import { freeChange } from '../../app/editor/form/axis/free-change.ts';
import { changesToAllowed, changesToAxis } from '../../app/editor/form/interlock/barring.ts';
import { branchesOf, lostBy } from '../../app/editor/form/step/branches.ts';
import {
  changesToGiven,
  changesToWeight,
  followingShares,
  givenShares,
  weightsFollowing,
} from '../../app/editor/form/symptom/weights.ts';
import { changesToAnswering } from '../../app/editor/form/test/answering.ts';
import { changesToResults } from '../../app/editor/form/test/banded.ts';
import { changeWords } from '../../app/editor/form/words/change-words.ts';
import { branchesTo, interlocksOn, usesOf } from '../../app/editor/form/words/uses.ts';
import { flows, type Test } from '../../trees/document/index.ts';
import { applyChanges, at, liveTree, type Change, type DraftDocument } from '../../trees/edit/index.ts';
import { smallDocument, smallTree } from '../support/trees.ts';

const authored = (): DraftDocument => JSON.parse(JSON.stringify(smallDocument())) as DraftDocument;

function applied(document: DraftDocument, changes: readonly Change[]): DraftDocument {
  const made = applyChanges(document, changes);
  if (!made.ok) throw new Error(made.message);
  return made.document;
}

function testOf(document: DraftDocument, id: string): Test {
  const test = liveTree(document).tree.tests[id];
  if (test === undefined) throw new Error(`no test ${id}`);
  return test;
}

describe('a test’s form', () => {
  it('takes the bands with the reading when the test comes to be answered by choosing', () => {
    const chosen = applied(authored(), changesToAnswering(authored(), 'rail-in', undefined));
    expect(at(chosen, ['tests', 'rail-in', 'reading'])).toBeUndefined();
    expect(at(chosen, ['tests', 'rail-in', 'results', 'low'])).toEqual({ title: 'Low' });
    const measured = applied(chosen, changesToAnswering(chosen, 'rail-in', 'A'));
    expect(at(measured, ['tests', 'rail-in', 'reading'])).toEqual({ unit: 'A' });
  });

  it('changes of the results only the band that was moved', () => {
    const document = authored();
    const { results } = testOf(document, 'rail-in');
    const low = { title: 'Low', band: { to: 4.7, from: undefined } };
    expect(changesToResults(document, 'rail-in', results, { ...results, low })).toEqual([
      { do: 'set', path: ['tests', 'rail-in', 'results', 'low', 'band'], value: { to: 4.7 } },
    ]);
    expect(changesToResults(document, 'rail-in', results, results)).toEqual([]);
  });

  it('leaves a blank title blank when bands are moved or one is split', () => {
    const title = ['tests', 'rail-in', 'results', 'low', 'title'];
    const document = applied(authored(), [{ do: 'set', path: title, value: '' }]);
    const { results } = testOf(document, 'rail-in');
    const low = { ...results['low'], title: results['low']?.title ?? '', band: { to: 1 } };
    const moved = applied(document, changesToResults(document, 'rail-in', results, { ...results, low }));
    expect(at(moved, title)).toBe('');
    const more = { ...results, none: { title: 'None', band: { to: 0.1 } } };
    const split = applied(document, changesToResults(document, 'rail-in', results, more));
    expect(at(split, title)).toBe('');
    expect(at(split, ['tests', 'rail-in', 'results', 'none', 'title'])).toBe('None');
  });

  it('says where the test is used, each place by its pointer', () => {
    const uses = usesOf(smallTree(), 'rail-far');
    expect(uses.steps).toEqual([
      { at: '/symptoms/dark-screen/steps/far', words: 'Dark screen, step 3' },
      { at: '/symptoms/dark-screen/steps/look-again', words: 'Dark screen, step 5' },
    ]);
    expect(uses.proving).toEqual([{ at: '/findings/joint-open', words: 'Rail joint open' }]);
    expect(uses.expecting.map(({ at }) => at)).toContain('/findings/ribbon-loose');
    expect(uses.interlocks).toEqual([]);
    expect(usesOf(smallTree(), 'supply-resistance').interlocks).toEqual([
      { at: '/interlocks/0', words: 'Power: On, current limit set' },
    ]);
  });
});

describe('a symptom’s form', () => {
  it('shows what given weights come to, and what follows where none are given', () => {
    const tree = smallTree();
    expect(givenShares(tree, 'no-sound')).toEqual([
      { finding: 'speaker-open', share: 0.6 },
      { finding: 'volume-down', share: 0.4 },
    ]);
    const [first, ...others] = followingShares(flows(tree), 'dark-screen');
    // 0.9 past the short, 0.7 of that in limits, 3/4 of that no drop, 4/8 of that partial; to 1e-12.
    expect(first?.finding).toBe('ribbon-loose');
    expect(first?.share).toBeCloseTo(0.9 * 0.7 * 0.75 * 0.5, 12);
    expect(others.every(({ share }) => share <= (first?.share ?? 0))).toBe(true);
  });

  it('gives by finding what followed, in the units that the first step’s branches have', () => {
    const document = authored();
    const tree = smallTree();
    const given = liveTree(
      applied(document, changesToGiven(document, tree, flows(tree), 'dark-screen')),
    ).tree;
    const weights = Object.values(given.symptoms['dark-screen']?.weights ?? {});
    // The first step’s branches have 9 and 1; each weight is rounded to three digits.
    expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(10, 1);
    const former = new Map(
      followingShares(flows(tree), 'dark-screen').map((one) => [one.finding, one.share]),
    );
    for (const { finding, share } of givenShares(given, 'dark-screen'))
      expect(share).toBeCloseTo(former.get(finding) ?? -1, 2);
  });

  it('leaves the others their shares beside each other when one finding is the first to be given a weight', () => {
    const document = authored();
    const tree = smallTree();
    const following = weightsFollowing(tree, flows(tree), 'dark-screen');
    const changes = changesToWeight(document, 'dark-screen', 'ribbon-loose', 10, following);
    expect(changes).toHaveLength(1);
    const given = new Map(
      givenShares(liveTree(applied(document, changes)).tree, 'dark-screen').map((one) => [
        one.finding,
        one.share,
      ]),
    );
    const former = followingShares(flows(tree), 'dark-screen');
    const ribbon = former.find(({ finding }) => finding === 'ribbon-loose')?.share ?? -1;
    // The others keep 10 - 10 x its share of the ten units of the first step; weights have three digits.
    const others = 10 * (1 - ribbon);
    expect(given.get('ribbon-loose')).toBeCloseTo(10 / (10 + others), 2);
    for (const { finding, share } of former.filter((one) => one.finding !== 'ribbon-loose'))
      expect(given.get(finding)).toBeCloseTo((10 * share) / (10 + others), 2);
  });

  it('gives a weight to one finding alone where others have theirs, or nothing follows from branches', () => {
    const document = authored();
    const beside = changesToWeight(document, 'no-sound', 'speaker-open', 9, { 'volume-down': 4 });
    expect(at(applied(document, beside), ['symptoms', 'no-sound', 'weights'])).toEqual({
      ...smallTree().symptoms['no-sound']?.weights,
      'speaker-open': 9,
    });
    const alone = changesToWeight(document, 'dark-screen', 'joint-open', 3, {});
    expect(at(applied(document, alone), ['symptoms', 'dark-screen', 'weights'])).toEqual({ 'joint-open': 3 });
  });
});

describe('a step’s form', () => {
  it('has a branch for every result of its test, and after them those that the test does not give', () => {
    const path = ['symptoms', 'dark-screen', 'steps', 'supply', 'then'];
    const document = applied(authored(), [
      { do: 'remove', path: [...path, 'low'] },
      { do: 'set', path: [...path, 'odd'], value: { go: 'look' } },
    ]);
    const branches = branchesOf(liveTree(document).tree, 'dark-screen', 'supply');
    expect(branches.map(({ result, given, lead }) => [result, given, lead?.at ?? null])).toEqual([
      ['good', true, '/symptoms/dark-screen/steps/far'],
      ['low', true, null],
      ['high', true, '/findings/converter-high'],
      ['odd', false, '/symptoms/dark-screen/steps/look'],
    ]);
    expect(branches.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('knows how many branches another test would leave behind', () => {
    expect(lostBy(smallTree(), 'dark-screen', 'supply', 'rail-far')).toBe(2);
    expect(lostBy(smallTree(), 'dark-screen', 'supply', 'rail-in')).toBe(0);
  });

  it('says what leads to it', () => {
    expect(branchesTo(smallTree(), '/symptoms/dark-screen/steps/look')).toEqual([
      { at: '/symptoms/dark-screen/steps/far/then/good', words: 'Dark screen, step 3: No drop' },
    ]);
    expect(branchesTo(smallTree(), '/symptoms/no-sound')).toEqual([
      { at: '/symptoms/dark-screen/steps/look/then/whole', words: 'Dark screen, step 4: Whole' },
    ]);
  });
});

describe('the bench’s forms', () => {
  it('begin a changeover between states that have none yet', () => {
    const states = { off: { title: 'Off' }, on: { title: 'On' } };
    const change = { minutes: 1, say: 'Do.', cautions: [] };
    const axis = { title: 'Power', start: 'off', states, changes: [] };
    expect(freeChange(axis)).toEqual({ from: 'off', to: 'on' });
    expect(freeChange({ ...axis, changes: [{ from: 'off', to: 'on', ...change }] })).toEqual({
      from: 'on',
      to: 'off',
    });
  });

  it('bar the state of another axis that a unit does not come in', () => {
    const tree = smallTree();
    const [interlock] = tree.interlocks;
    if (interlock === undefined) throw new Error('no interlock');
    const changed = applied(authored(), changesToAxis(tree, 0, interlock, 'power', 'shell'));
    expect(at(changed, ['interlocks', 0, 'change'])).toEqual({ shell: 'open' });
    expect(changesToAxis(tree, 0, interlock, 'power', 'power')).toEqual([]);
    expect(interlocksOn(tree, 'power')).toHaveLength(1);
    expect(interlocksOn(tree, 'shell')).toEqual([]);
  });

  it('keep the results that open an interlock in the test’s order, and the last of them', () => {
    const tree = smallTree();
    const [interlock] = tree.interlocks;
    if (interlock === undefined) throw new Error('no interlock');
    const place = { test: 'supply-resistance', result: 'short' };
    const both = applied(authored(), changesToAllowed(tree, 0, interlock, place, true));
    expect(at(both, ['interlocks', 0, 'until', 'supply-resistance'])).toEqual(['clear', 'short']);
    expect(changesToAllowed(tree, 0, interlock, { ...place, result: 'clear' }, false)).toEqual([]);
  });
});

describe('a change made in a form', () => {
  it.each([
    [['tests', 'rail-in', 'minutes'], 'Minutes', 'Change minutes of test 5 V at the converter'],
    [
      ['tests', 'rail-in', 'results', 'low', 'title'],
      'Title',
      'Change title of Low of test 5 V at the converter',
    ],
    [['title'], 'Title', 'Change title of the tree itself'],
    [
      ['symptoms', 'dark-screen', 'steps', 'far', 'test'],
      'DC volts',
      'Change DC volts of step 3, 5 V at the panel',
    ],
  ])('at %j is called by what it is of', (path, label, words) => {
    expect(changeWords(smallTree(), path, label)).toBe(words);
  });
});
