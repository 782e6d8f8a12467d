import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planExact, planFast, startSearch, type Plan } from '../../trees/plan/index.ts';
import { arbitraryQuestion, questionOf, type Kind } from '../support/arbitrary-plan.ts';
import {
  isPointless,
  referencePlan,
  type ReferencePlan,
  type ReferenceQuestion,
} from '../support/reference-plan.ts';

const TOLERANCE = 1e-9;
const MINUTE = 60_000;

const KINDS: readonly (Kind & { readonly runs: number })[] = [
  { goal: 'isolate', certain: true, runs: 300 },
  { goal: 'isolate', certain: false, runs: 200 },
  { goal: 'fix', certain: true, runs: 300 },
  { goal: 'fix', certain: false, runs: 200 },
];

describe.each(KINDS)('goal $goal, certain results: $certain, $runs questions', ({ runs, ...kind }) => {
  const assert = (holds: (question: ReferenceQuestion, reference: ReferencePlan) => void) => {
    const property = fc.property(arbitraryQuestion(kind), (drawn) => {
      const question = questionOf(drawn);
      holds(question, referencePlan(question));
    });
    fc.assert(property, { numRuns: runs });
  };

  test(
    'the exact plan, the plans stopped short of it and the fast plan keep to the reference within 1e-9',
    () =>
      assert((question, reference) => {
        expectOptimal(question, planExact(question), reference);
        for (const expansions of [0, 1, 2, 5, 20])
          expectBounds(planExact(question, { expansions }), reference);
        const fast = planFast(question);
        expectPossible(fast, reference);
        expect(fast.lowerBound).toBeLessThanOrEqual(above(reference.total));
        expect(fast.expectedTotal).toBeGreaterThanOrEqual(below(fast.lowerBound));
      }),
    5 * MINUTE,
  );
});

test(
  'a search carried on in small portions comes to the same plan as one run to its end',
  () => {
    const property = fc.property(arbitraryQuestion({ goal: 'fix', certain: true }), (drawn) => {
      const question = questionOf(drawn);
      const search = startSearch(question);
      for (let portions = 0; !search.solved && portions < 100_000; portions += 1) search.run(3);
      expect(search.solved).toBe(true);
      expectOptimal(question, search.plan(), referencePlan(question));
    });
    fc.assert(property, { numRuns: 50 });
  },
  MINUTE,
);

/** The optimum, and that of each act that could go first, best first; only what has no point may be left out. */
function expectOptimal(question: ReferenceQuestion, plan: Plan, reference: ReferencePlan): void {
  expect(plan.method).toBe('exact');
  expectSame(plan.expectedTotal, reference.total);
  expectSame(plan.lowerBound, reference.total);
  expect(plan.gap).toBeLessThanOrEqual(TOLERANCE * Math.max(1, reference.total));
  const named = plan.actions.map(nameOf);
  const unnamed = [...reference.acts.keys()].filter((act) => !named.includes(act));
  expect(unnamed.filter((act) => !isPointless(question, act))).toEqual([]);
  for (const act of plan.actions)
    expectSame(act.expectedTotal, reference.acts.get(nameOf(act)) ?? Number.NaN);
  const totals = plan.actions.map(({ expectedTotal }) => expectedTotal);
  for (const [place, total] of totals.entries()) {
    expect(total).toBeGreaterThanOrEqual(below(totals[place - 1] ?? 0));
  }
}

/** Stopped at any time: the optimum lies between the bounds, and what is proposed can be done. */
function expectBounds(plan: Plan, reference: ReferencePlan): void {
  expect(plan.lowerBound).toBeLessThanOrEqual(above(reference.total));
  expect(plan.expectedTotal).toBeGreaterThanOrEqual(below(reference.total));
  expect(plan.lowerBound).toBeGreaterThanOrEqual(0);
  expectSame(plan.gap, plan.expectedTotal - plan.lowerBound);
  expectPossible(plan, reference);
}

/** Acts that are possible, and one at least unless all is done. */
function expectPossible({ actions }: Plan, { acts }: ReferencePlan): void {
  expect(actions.length === 0).toBe(acts.size === 0);
  for (const act of actions) expect([...acts.keys()]).toContain(nameOf(act));
}

function nameOf({ kind, id }: Plan['actions'][number]): string {
  return kind === 'pass-on' ? id : `${kind}:${id}`;
}

function expectSame(actual: number, expected: number): void {
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(TOLERANCE * Math.max(1, Math.abs(expected)));
}

function above(total: number): number {
  return total + TOLERANCE * Math.max(1, total);
}

function below(total: number): number {
  return total - TOLERANCE * Math.max(1, total);
}
