import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addToHistory,
  contributionOf,
  historyOf,
  NO_HISTORY,
  type Contribution,
} from '../../trees/belief/index.ts';
import { smallDocument, smallTree, treeOf } from '../support/trees.ts';
import { aJob, anAnswer, aReading, aRemedy } from './a-job.ts';

const LED_TO_IT = [anAnswer('rail-in', 'good', { reading: aReading(4.8) }), anAnswer('border', 'none')];
const FIXED = aJob({
  outcome: 'fixed',
  answers: [anAnswer('border', 'whole', { era: 2 })],
  remedies: [aRemedy('panel-dead', 'not-mended'), aRemedy('joint-open', 'mended', LED_TO_IT)],
});

describe('what a job adds', () => {
  test('a fixed job adds its finding, the results that led to the remedy, and each remedy proved', () => {
    expect(contributionOf(smallTree(), FIXED)).toEqual({
      confirmed: { symptom: 'dark-screen', finding: 'joint-open' },
      results: [
        { test: 'rail-in', result: 'good' },
        { test: 'border', result: 'none' },
      ],
      remedies: [
        { finding: 'panel-dead', mended: false },
        { finding: 'joint-open', mended: true },
      ],
    });
  });

  test('a reading is sorted into the bands that the tree has now', () => {
    const document = smallDocument();
    const railIn = document.tests['rail-in'];
    if (railIn === undefined) throw new Error('the small tree has changed');
    railIn.results = {
      good: { title: 'In limits', band: { from: 4.9, to: 5.25 } },
      low: { title: 'Low', band: { to: 4.9 } },
      high: { title: 'High', band: { from: 5.25 } },
    };
    const contribution = contributionOf(treeOf(document), FIXED);
    expect(contribution?.results[0]).toEqual({ test: 'rail-in', result: 'low' });
  });

  test('an answer that the tree can no longer sort counts as it was recorded', () => {
    const evidence = [
      anAnswer('gone', 'good', { reading: aReading(1) }),
      anAnswer('border', 'none', { reading: aReading(1) }),
      anAnswer('rail-far', 'drop', { reading: aReading(1) }),
    ];
    const job = aJob({ outcome: 'fixed', remedies: [aRemedy('joint-open', 'mended', evidence)] });
    expect(contributionOf(smallTree(), job)?.results.map(({ result }) => result)).toEqual([
      'good',
      'none',
      'drop',
    ]);
  });

  test('a cause outside the tree counts for its symptom, and for no test and no remedy', () => {
    const job = aJob({ outcome: 'fixed', remedies: [aRemedy('unlisted', 'mended', LED_TO_IT)] });
    expect(contributionOf(smallTree(), job)).toEqual({
      confirmed: { symptom: 'dark-screen', finding: 'unlisted' },
      results: [],
      remedies: [],
    });
  });

  test('a job closed otherwise adds only the remedies that did not mend', () => {
    const job = aJob({
      outcome: 'declined',
      remedies: [aRemedy('panel-dead', 'not-mended'), aRemedy('joint-open', 'mended', LED_TO_IT)],
    });
    expect(contributionOf(smallTree(), job)).toEqual({
      confirmed: null,
      results: [],
      remedies: [{ finding: 'panel-dead', mended: false }],
    });
  });

  test('an open job, and one that proved nothing, add nothing', () => {
    expect(contributionOf(smallTree(), aJob({ remedies: FIXED.remedies }))).toBeNull();
    const givenUp = aJob({ outcome: 'passed-on', remedies: [aRemedy('joint-open', 'given-up')] });
    expect(contributionOf(smallTree(), givenUp)).toBeNull();
  });
});

const idOf = fc.constantFrom('a', 'b', 'constructor');

function arbitraryContribution(): fc.Arbitrary<Contribution> {
  return fc.record({
    confirmed: fc.option(fc.record({ symptom: idOf, finding: idOf })),
    results: fc.array(fc.record({ test: idOf, result: idOf }), { maxLength: 4 }),
    remedies: fc.array(fc.record({ finding: idOf, mended: fc.boolean() }), { maxLength: 3 }),
  });
}

describe('history', () => {
  test('one job is counted once in each of the three counts', () => {
    const contribution = contributionOf(smallTree(), FIXED);
    if (contribution === null) throw new Error('it adds something');
    expect(addToHistory(NO_HISTORY, contribution, 1)).toEqual({
      findings: { 'dark-screen': { 'joint-open': 1 } },
      results: { 'rail-in': { 'joint-open': { good: 1 } }, border: { 'joint-open': { none: 1 } } },
      remedies: { 'panel-dead': { tried: 1, mended: 0 }, 'joint-open': { tried: 1, mended: 1 } },
    });
  });

  test('adding a job and taking it out again gives back the same history, and leaves the first as it was', () => {
    fc.assert(
      fc.property(fc.array(arbitraryContribution()), arbitraryContribution(), (before, contribution) => {
        const history = historyOf(before);
        const copy = structuredClone(history);
        const after = addToHistory(addToHistory(history, contribution, 1), contribution, -1);
        expect(after).toEqual(history);
        expect(history).toEqual(copy);
      }),
    );
  });

  test('the order in which jobs are closed does not matter, nor whether they are added one by one', () => {
    fc.assert(
      fc.property(fc.array(arbitraryContribution()), (contributions) => {
        let oneByOne = NO_HISTORY;
        for (const contribution of contributions.toReversed()) {
          oneByOne = addToHistory(oneByOne, contribution, 1);
        }
        expect(oneByOne).toEqual(historyOf(contributions));
      }),
    );
  });

  test('taking out a job that is not in it throws', () => {
    const confirmed = { symptom: 'dark-screen', finding: 'joint-open' };
    expect(() => addToHistory(NO_HISTORY, { confirmed, results: [], remedies: [] }, -1)).toThrow(
      'history-below-zero',
    );
  });
});
