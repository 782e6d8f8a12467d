import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { evaluateWithin } from '../../trees/plan/evaluate.ts';
import type { Goal } from '../../trees/plan/question.ts';
import type { Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { enumerateJobs } from '../support/enumerate-jobs.ts';

const EXACT = { smallest: 0, states: Infinity };
const MOST_EVENTS = 1500;

/** Random trees, some of which name a proof for every finding, so that answers can be forgotten. */
function drawnTree(): fc.Arbitrary<Tree> {
  return fc.tuple(arbitraryTree(), fc.boolean()).map(([tree, provesAll]) => {
    if (!provesAll) return tree;
    const tests = Object.keys(tree.tests);
    const findings = Object.entries(tree.findings).map(([id, finding], place) => {
      const prove = finding.prove.length > 0 ? finding.prove : [tests[place % tests.length] ?? ''];
      return [id, { ...finding, prove }];
    });
    return { ...tree, findings: Object.assign(Object.create(null), Object.fromEntries(findings)) };
  });
}

describe.each<Goal>(['isolate', 'fix'])('the evaluation of a random tree, to %s', (goal) => {
  it('is what walking the chart’s machine through every outcome adds up to, within 1e-9', () => {
    let compared = 0;
    fc.assert(
      fc.property(drawnTree(), fc.nat(9), fc.constantFrom(null, 20, 90), (tree, which, rate) => {
        const symptoms = Object.keys(tree.symptoms);
        const symptom = symptoms[which % symptoms.length] ?? '';
        const question = { model: compileFaultModel(tree, NO_HISTORY), symptom, goal, rate };
        const expected = enumerateJobs(question, MOST_EVENTS);
        if (expected === null) return;
        compared += 1;
        const found = evaluateWithin(question, EXACT);
        const near = (value: number, other: number) =>
          expect(value / (1 + Math.abs(other))).toBeCloseTo(other / (1 + Math.abs(other)), 9);
        near(found.expectedMinutes, expected.minutes);
        near(found.expectedTests, expected.tests);
        near(found.expectedChangeovers, expected.changeovers);
        near(found.rightFinding, expected.right);
        near(found.wrongFix, expected.wrong);
        near(found.passedOn, expected.passedOn);
        near(found.rightFinding + found.wrongFix + found.passedOn, 1);
        expect(found.unexplored).toBe(0);
        for (const { kind, id, minutes, place } of found.byItem) {
          near(minutes, expected.byItem.get(`${kind} ${id}`) ?? 0);
          const placed = expected.places.get(id);
          if (kind === 'test') near(place ?? 0, (placed?.sum ?? 0) / (placed?.made ?? 1));
        }
        for (const { finding, probability } of found.ends) near(probability, expected.ends.get(finding) ?? 0);
        expect(found.ends).toHaveLength(expected.ends.size);
      }),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(60);
  }, 120_000);
});
