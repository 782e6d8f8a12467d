import { describe, expect, test } from 'vitest';
import { fixBounds } from '../../trees/plan/fix-bounds.ts';
import { planExact } from '../../trees/plan/index.ts';
import { isolateBounds } from '../../trees/plan/isolate-bounds.ts';
import { problemOf } from '../../trees/plan/problem.ts';
import { plainPlan } from '../support/random-plan-plain.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';

const TOLERANCE = 1e-9;
const SEEDS = [1, 2, 3, 4];

const isolate = { goal: 'isolate', findings: 8, tests: 9, benchStates: 2 } as const;
const doubtful = { ...isolate, findings: 5, tests: 6, certain: false } as const;
const fix = { goal: 'fix', findings: 4, tests: 5, certain: false, unlisted: 0.02, settled: 0.95 } as const;

const SHAPES: Readonly<Record<string, PlanShape>> = {
  'isolate, certain': { ...isolate, certain: true },
  'isolate, certain, most results sound': { ...isolate, certain: true, odd: 0.15 },
  'isolate, certain, some unlisted': {
    ...isolate,
    findings: 6,
    certain: true,
    unlisted: 0.02,
    settled: 0.95,
  },
  'isolate, certain, three results, settled early': { ...isolate, certain: true, results: 3, settled: 0.8 },
  'isolate, doubtful': { ...doubtful, unlisted: 0.02, settled: 0.95 },
  'isolate, doubtful, three results': { ...doubtful, tests: 5, results: 3, settled: 0.9 },
  'fix, doubtful': fix,
  'fix, doubtful, bench and proofs': { ...fix, benchStates: 3, proofTests: 2, fixRate: 0.8 },
  'fix, doubtful, proofs by what was not sound': { ...fix, benchStates: 2 },
  'fix, doubtful, disturbing': { ...fix, benchStates: 2, proofTests: 1, disturbs: 0.3, fixRate: 0.7 },
  'fix, certain': { ...fix, tests: 6, certain: true, unlisted: 0, benchStates: 2, proofTests: 1 },
};

describe.each(Object.entries(SHAPES))('%s, some thousand positions', (_, shape) => {
  test('what is least at a position lies between its bounds, within 1e-9', () => {
    let positions = 0;
    for (const seed of SEEDS) {
      const question = randomQuestion(shape, seed);
      const problem = problemOf(question);
      const { boundsAt } = shape.goal === 'fix' ? fixBounds(problem) : isolateBounds(problem);
      const outside: unknown[] = [];
      plainPlan(question, (position, value) => {
        const { lower, upper, guess, known } = boundsAt(position);
        const more = TOLERANCE * Math.max(1, value);
        const holds = lower <= value + more && value <= upper + more;
        const isBetween = lower <= guess + more && guess <= upper + more && known <= guess + more;
        if (!holds || !isBetween) outside.push({ seed, lower, value, upper, guess, known });
        positions += 1;
      });
      expect(outside.slice(0, 3)).toEqual([]);
    }
    expect(positions).toBeGreaterThan(100);
  });

  test('the exact plan is what plain programming finds, and its bounds close, within 1e-9', () => {
    for (const seed of SEEDS) {
      const question = randomQuestion(shape, seed);
      const { expectedTotal, gap } = planExact(question);
      expect(Math.abs(expectedTotal - plainPlan(question).expectedTotal)).toBeLessThanOrEqual(TOLERANCE);
      expect(gap).toBeLessThanOrEqual(TOLERANCE);
    }
  });

  test('stopped short, the exact plan’s bounds hold the optimum and only ever close in, within 1e-9', () => {
    for (const seed of SEEDS) {
      const question = randomQuestion(shape, seed);
      const optimum = planExact(question).expectedTotal;
      let before = { lowerBound: 0, expectedTotal: Infinity };
      for (const expansions of [0, 1, 3, 10, 30, 100, 300]) {
        const plan = planExact(question, { expansions });
        expect(plan.lowerBound).toBeLessThanOrEqual(optimum + TOLERANCE);
        expect(plan.expectedTotal).toBeGreaterThanOrEqual(optimum - TOLERANCE);
        expect(plan.lowerBound).toBeGreaterThanOrEqual(before.lowerBound - TOLERANCE);
        expect(plan.expectedTotal).toBeLessThanOrEqual(before.expectedTotal + TOLERANCE);
        before = plan;
      }
    }
  });
});
