import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lookAhead } from '../../trees/plan/fast.ts';
import { planExact, planFast, type Plan, type PlanQuestion } from '../../trees/plan/index.ts';
import { resultAt } from '../../trees/plan/marks.ts';
import { remedyMinutes, testMinutes, testOutcomes } from '../../trees/plan/outcome.ts';
import { startPosition, stateAt, viewAt, type Position } from '../../trees/plan/position.ts';
import { problemOf, type Problem } from '../../trees/plan/problem.ts';
import { arbitraryQuestion, questionOf } from '../support/arbitrary-plan.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';

const TOLERANCE = 1e-9;

const usual = { unlisted: 0.02, settled: 0.95, benchStates: 3 } as const;
const KINDS: Readonly<Record<string, Omit<PlanShape, 'findings' | 'tests'>>> = {
  'isolate, certain': { goal: 'isolate', certain: true, benchStates: 3 },
  'isolate, doubtful': { ...usual, goal: 'isolate', certain: false },
  'fix, certain': { ...usual, goal: 'fix', certain: true, proofTests: 1 },
  'fix, doubtful': { ...usual, goal: 'fix', certain: false, proofTests: 2, disturbs: 0.05 },
};

describe.each(Object.entries(KINDS))('%s', (_, kind) => {
  test.each([
    { findings: 5, tests: 7 },
    { findings: 40, tests: 60 },
    { findings: 200, tests: 300 },
  ])('the same question has the same answer: $findings findings, $tests tests', (size) => {
    const shape = { ...kind, ...size };
    const first = planFast(randomQuestion(shape, 7));
    planFast(randomQuestion(shape, 8));
    expect(planFast(randomQuestion(shape, 7))).toEqual(first);
  });

  test.each([
    { findings: 8, tests: 10 },
    { findings: 40, tests: 60 },
    { findings: 200, tests: 300 },
  ])(
    'names acts that can be done, with their own minutes within 1e-9: $findings findings, $tests tests',
    (size) => {
      const question = randomQuestion({ ...kind, ...size }, 3);
      const { actions } = planFast(question);
      expect(actions.length).toBeGreaterThan(0);
      expectPossible(question, actions);
    },
  );

  test('solves a small question outright: 4 findings, 4 tests, within 1e-9', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const question = randomQuestion({ ...kind, findings: 4, tests: 4 }, seed);
      const fast = planFast(question);
      const exact = planExact(question);
      expect(fast.method).toBe('fast');
      expect(fast.gap).toBeLessThanOrEqual(TOLERANCE);
      expect(Math.abs(fast.expectedTotal - exact.expectedTotal)).toBeLessThanOrEqual(TOLERANCE);
      const best = exact.actions.filter((act) => act.expectedTotal <= exact.expectedTotal + TOLERANCE);
      expect(best.map(({ id }) => id)).toContain(fast.actions[0]?.id);
    }
  });

  test('its lower bound holds, and its acts are in order, none less than its own minutes, within 1e-9', () => {
    for (const seed of [1, 2]) {
      const question = randomQuestion({ ...kind, findings: 5, tests: 5 }, seed);
      const { expectedTotal, lowerBound, gap, actions } = planFast(question);
      const exact = planExact(question);
      expect(lowerBound).toBeLessThanOrEqual(exact.expectedTotal + TOLERANCE);
      expect(Math.abs(gap - (expectedTotal - lowerBound))).toBeLessThanOrEqual(TOLERANCE);
      expect(gap).toBeGreaterThanOrEqual(0);
      const totals = actions.map((act) => act.expectedTotal);
      expect(totals).toEqual(totals.toSorted((a, b) => a - b));
      for (const act of actions) expect(act.expectedTotal).toBeGreaterThanOrEqual(act.minutes - TOLERANCE);
    }
  });

  test('asked by a job that has come so far, says what it says on looking from there, within 1e-9', () => {
    const question = randomQuestion({ ...kind, findings: 8, tests: 10 }, 5);
    const problem = problemOf(question);
    for (const position of somePositions(problem)) {
      const { root } = lookAhead({ ...problem, start: position.marks });
      const plan = planFast(jobAt(question, problem, position));
      const totals = (root.acts ?? []).map(({ guess }) => guess).sort((a, b) => a - b);
      expect(plan.actions).toHaveLength(totals.length);
      plan.actions.forEach(({ expectedTotal }, place) =>
        expect(Math.abs(expectedTotal - (totals[place] ?? Number.NaN))).toBeLessThanOrEqual(TOLERANCE),
      );
    }
  });
});

test('with interlocks, ratios and jobs in the middle of things the acts named can be done too', () => {
  const kind = fc
    .constantFrom('isolate' as const, 'fix' as const)
    .chain((goal) => arbitraryQuestion({ goal, certain: false }));
  fc.assert(
    fc.property(kind, (drawn) => {
      const question = questionOf(drawn);
      expectPossible(question, planFast(question).actions);
    }),
    { numRuns: 200 },
  );
});

function expectPossible(question: PlanQuestion, actions: Plan['actions']): void {
  const problem = problemOf(question);
  const position = startPosition(problem);
  const view = viewAt(problem, position.marks);
  for (const { kind, id, minutes } of actions) {
    if (kind === 'pass-on') continue;
    const at =
      kind === 'test' ? problem.tests.findIndex((one) => one.id === id) : problem.findings.indexOf(id);
    const ofAct =
      kind === 'test' ? testMinutes(problem, view, position, at) : remedyMinutes(problem, view, position, at);
    expect(ofAct).toBeLessThan(Infinity);
    // A remedy's are with its proof.
    if (kind === 'test') expect(Math.abs(minutes - ofAct)).toBeLessThanOrEqual(TOLERANCE);
    else expect(minutes).toBeGreaterThanOrEqual(ofAct - TOLERANCE);
  }
}

/** The start, and where three tests in turn may lead by their least and their most likely results. */
function somePositions(problem: Problem): readonly Position[] {
  const positions = [startPosition(problem)];
  for (const at of [0, 1, 2]) {
    const last = positions.at(-1) ?? startPosition(problem);
    const outcomes = testOutcomes(problem, last, at).toSorted((a, b) => a.probability - b.probability);
    positions.push(...[outcomes[0], outcomes.at(-1)].flatMap((one) => one?.position ?? []));
  }
  return positions;
}

/** The question that a job asks whose answers and bench are those of a position. */
function jobAt(question: PlanQuestion, problem: Problem, { marks }: Position): PlanQuestion {
  const answers = problem.tests.flatMap(({ id }, at) => {
    const place = resultAt(marks[at] ?? 0);
    const result = Object.keys(problem.tree.tests[id]?.results ?? {})[place];
    return result === undefined ? [] : [{ test: id, result, era: 0 }];
  });
  const { axes, states } = problem.bench;
  const bench = axes.map((axis, at) => [axis, states[at]?.[stateAt(problem, marks, at)] ?? '']);
  return { ...question, job: { ...question.job, answers }, bench: Object.fromEntries(bench) };
}
