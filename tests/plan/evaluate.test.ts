import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { evaluateWithin } from '../../trees/plan/evaluate.ts';
import { evaluate, type Evaluation, type Goal } from '../../trees/plan/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { smallTree, treeOf, type TreeDocument } from '../support/trees.ts';
import { twoFindings } from './two-findings.ts';

function evaluated(document: TreeDocument, goal: Goal, rate: number | null = 60): Evaluation {
  return evaluate({ model: compileFaultModel(treeOf(document), NO_HISTORY), symptom: 'dead', goal, rate });
}

describe('a tree worked by hand, to 1e-12', () => {
  it('costs, to isolate, its tests and changeovers in proportion to how often they are made', () => {
    // 2 for the look; then, where it shows nothing (3/4 x 1/2 + 1/4 = 0.625), 1 to switch on and 3 for the volts.
    const found = evaluated(twoFindings(), 'isolate');
    expect(found.expectedMinutes).toBeCloseTo(2 + 0.625 * (1 + 3), 12);
    expect(found.expectedTests).toBeCloseTo(1.625, 12);
    expect(found.expectedChangeovers).toBeCloseTo(0.625, 12);
    expect(found).toMatchObject({ rightFinding: 1, wrongFix: 0, passedOn: 0, unexplored: 0, stoodFor: 0 });
    expect(found.ends).toEqual([
      { finding: 'part', probability: 0.75 },
      { finding: 'joint', probability: 0.25 },
    ]);
    expect(found.byItem).toEqual([
      { kind: 'test', id: 'look', minutes: 2, made: 1, place: 1 },
      { kind: 'test', id: 'volts', minutes: 1.875, made: 0.625, place: 2 },
      { kind: 'changeover', id: 'power:off>on', minutes: 0.625, made: 0.625 },
    ]);
  });

  it('costs, to fix, its remedies with their parts and proofs, and passing on what they do not mend', () => {
    const found = evaluated(twoFindings(), 'fix');
    // A burnt part (3/8): 5 + 10 for the remedy, on and volts for the proof; one in five is not mended and passed on.
    const burnt = 0.375 * (15 + 1 + 3 + 0.2 * 60);
    // A part found by the volts (3/8): off, the remedy, on, volts again; one in five is passed on.
    const part = 0.375 * (0.5 + 15 + 1 + 3 + 0.2 * 60);
    // A joint (1/4): the remedy and a look, which an unmended joint passes too.
    const joint = 0.25 * (7 + 2);
    expect(found.expectedMinutes).toBeCloseTo(2 + 0.625 * 4 + burnt + part + joint, 12);
    expect(found.rightFinding).toBeCloseTo(0.8, 12);
    expect(found.wrongFix).toBeCloseTo(0.25 * 0.2, 12);
    expect(found.passedOn).toBeCloseTo(0.75 * 0.2, 12);
    expect(found.byItem.find(({ kind }) => kind === 'pass-on')?.minutes).toBeCloseTo(0.15 * 60, 12);
    // Made once as a step (place 2), and for proof after one (burnt) or two (not) tests.
    const volts = found.byItem.find(({ id }) => id === 'volts');
    expect(volts?.made).toBeCloseTo(0.625 + 0.75, 12);
    expect(volts?.place).toBeCloseTo((0.625 * 2 + 0.375 * 2 + 0.375 * 3) / 1.375, 12);
  });

  it('counts parts through the hourly rate, and not at all where there is none', () => {
    const minutes = (rate: number | null) => evaluated(twoFindings(), 'fix', rate).expectedMinutes;
    expect(minutes(60) - minutes(null)).toBeCloseTo(0.75 * 10, 12);
    expect(minutes(30) - minutes(null)).toBeCloseTo(0.75 * 20, 12);
  });

  it('goes on where a finding leads otherwise, by the answers that stand', () => {
    const document = twoFindings();
    if (document.findings['part'] !== undefined) document.findings['part'].otherwise = 'finding:joint';
    const before = evaluated(twoFindings(), 'fix');
    const found = evaluated(document, 'fix');
    // The 0.15 unmended parts get the joint's remedy, then a look: half pass it by chance, half are passed on.
    expect(found.expectedMinutes - before.expectedMinutes).toBeCloseTo(0.15 * (7 + 2 + 0.5 * 60 - 60), 12);
    expect(found.wrongFix).toBeCloseTo(0.05 + 0.15 * 0.5, 12);
    expect(found.passedOn).toBeCloseTo(0.15 * 0.5, 12);
  });

  it('ends at a way barred: without a finding to isolate, passed on to fix', () => {
    const document = twoFindings();
    document.interlocks = [
      { change: { power: 'on' }, until: { look: ['good'] }, because: 'Burnt boards burn.' },
    ];
    document.symptoms['dead'] = {
      title: 'Dead',
      first: 'second',
      weights: { part: 3, joint: 1 },
      steps: {
        second: { test: 'volts', then: { there: { go: 'finding:joint' }, none: { go: 'finding:part' } } },
      },
    };
    const isolated = evaluated(document, 'isolate');
    expect(isolated.expectedMinutes).toBeCloseTo(2 + 0.625 * 4, 12);
    expect(isolated.rightFinding).toBeCloseTo(0.625, 12);
    expect(isolated.passedOn).toBeCloseTo(0.375, 12);
    const fixed = evaluated(document, 'fix');
    // The look opens the interlock; after a part's remedy it is made again, and bars the proof of half of those unmended.
    const part = 0.375 * (0.5 + 15 + 2 + 0.8 * 4 + 0.2 * (0.5 * 4 + 60));
    expect(fixed.expectedMinutes).toBeCloseTo(2 + 0.625 * 4 + 0.375 * 60 + part + 0.25 * (7 + 0.5 + 2), 12);
  });

  it('passes on, or ends, at once where the symptom has no path', () => {
    const document = twoFindings();
    document.symptoms['dead'] = { title: 'Dead', weights: { part: 3, joint: 1 } };
    expect(evaluated(document, 'fix')).toMatchObject({
      expectedMinutes: 60,
      passedOn: 1,
      byItem: [{ kind: 'pass-on' }],
    });
    expect(evaluated(document, 'isolate')).toMatchObject({ expectedMinutes: 0, passedOn: 1, byItem: [] });
  });

  it('names the findings that no test on the way tells apart', () => {
    const document = twoFindings();
    const { part } = document.findings;
    if (part !== undefined)
      document.findings['twin'] = { ...part, expects: { look: 'burnt', volts: 'none' } };
    const symptom = document.symptoms['dead'];
    if (symptom !== undefined) symptom.weights = { part: 3, joint: 1, twin: 1 };
    expect(evaluated(document, 'isolate').ambiguityGroups).toEqual([]);
    if (symptom?.steps !== undefined) symptom.first = 'second';
    expect(evaluated(document, 'isolate').ambiguityGroups).toEqual([['part', 'twin']]);
  });
});

describe('the tree given', () => {
  it('is walked by the probabilities of the model, though its paths are others', () => {
    const document = twoFindings();
    const model = compileFaultModel(treeOf(document), NO_HISTORY);
    document.symptoms['dead'] = {
      title: 'Dead',
      first: 'only',
      steps: {
        only: { test: 'volts', then: { there: { go: 'finding:joint' }, none: { go: 'finding:part' } } },
      },
    };
    const found = evaluate({ model, tree: treeOf(document), symptom: 'dead', goal: 'isolate', rate: null });
    expect(found.expectedMinutes).toBeCloseTo(4, 12);
    expect(found.ends).toEqual([
      { finding: 'part', probability: 0.75 },
      { finding: 'joint', probability: 0.25 },
    ]);
  });
});

describe('an evaluation cut short', () => {
  it('counts what it did not look into as passed on, and says how much that is', () => {
    const question = {
      model: compileFaultModel(smallTree(), NO_HISTORY),
      symptom: 'dark-screen',
      rate: null,
    };
    for (const goal of ['isolate', 'fix'] as const) {
      const found = evaluateWithin({ ...question, goal }, { smallest: 0, states: 3 });
      expect(found.unexplored).toBeGreaterThan(0.5);
      expect(found.passedOn).toBeGreaterThanOrEqual(found.unexplored - 1e-12);
      expect(found.rightFinding + found.wrongFix + found.passedOn).toBeCloseTo(1, 12);
      expect(found.byItem.find(({ kind }) => kind === 'pass-on')?.minutes).toBeCloseTo(
        found.unexplored * 60,
        9,
      );
    }
  });
});

describe.each<Goal>(['isolate', 'fix'])('the evaluation of random trees, to %s', (goal) => {
  const LIMITS = { smallest: 1e-3, states: 3000 };

  it('has probabilities that sum to one and items that add up, within 1e-9', () => {
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(9), (tree, which) => {
        const found = evaluateWithin(questionOf(tree, which), LIMITS);
        const sum = (values: readonly number[]) => values.reduce((so, value) => so + value, 0);
        expect(sum(found.ends.map(({ probability }) => probability))).toBeCloseTo(1, 9);
        expect(found.rightFinding + found.wrongFix + found.passedOn).toBeCloseTo(1, 9);
        expect(sum(found.byItem.map(({ minutes }) => minutes))).toBeCloseTo(found.expectedMinutes, 9);
        expect(found.stoodFor).toBeGreaterThanOrEqual(0);
        expect(found.stoodFor + found.unexplored).toBeLessThanOrEqual(1 + 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('does not depend on the order in which the tree lists its findings, within 1e-9', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(9), (tree, which) => {
        const turned = Object.fromEntries(Object.entries(tree.findings).toReversed());
        const other = { ...tree, findings: Object.assign(Object.create(null), turned) };
        const limits = { smallest: 0, states: 3000 };
        const one = evaluateWithin(questionOf(tree, which), limits);
        const two = evaluateWithin(questionOf(other, which), limits);
        if (one.unexplored > 0) return;
        compared += 1;
        expect(two.expectedMinutes / (1 + one.expectedMinutes)).toBeCloseTo(
          one.expectedMinutes / (1 + one.expectedMinutes),
          9,
        );
        expect(two.rightFinding).toBeCloseTo(one.rightFinding, 9);
        expect(new Set(two.ambiguityGroups.map((group) => [...group].sort().join()))).toEqual(
          new Set(one.ambiguityGroups.map((group) => [...group].sort().join())),
        );
      }),
      { numRuns: 100 },
    );
    expect(compared).toBeGreaterThan(30);
  });

  function questionOf(tree: Tree, which: number) {
    const symptoms = Object.keys(tree.symptoms);
    const symptom = symptoms[which % symptoms.length] ?? '';
    return { model: compileFaultModel(tree, NO_HISTORY), symptom, goal, rate: 40 };
  }
});
