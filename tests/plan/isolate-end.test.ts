import { describe, expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation, type JobState } from '../../trees/chart/index.ts';
import { planExact, planFast, type Plan } from '../../trees/plan/index.ts';
import { hasEnded, isSettled, moves, reachableTests } from '../../trees/plan/isolate-end.ts';
import { startPosition } from '../../trees/plan/position.ts';
import { problemOf, type Problem } from '../../trees/plan/problem.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';

type Results = Readonly<Record<string, string>>;

/** Findings `a`, `b` and `c`, alike likely, nothing unlisted; `look` shows `a`, `probe` tells `b` from `c`. Power is needed to probe, and `short` opens it. */
function document(over: Partial<TreeDocument> = {}): TreeDocument {
  const results = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, { title: id }]));
  const aTest = { title: 'Test', ask: 'Look.', instrument: 'eye', minutes: 1 } as const;
  const aFinding = (expects: Results) => ({
    title: 'Finding',
    because: 'It fails.',
    remedy: { steps: ['Mend it.'], minutes: 5 },
    expects,
  });
  return {
    format: 'ohmward-tree/1',
    id: 'three',
    title: 'Three findings',
    unit: { family: 'None' },
    defaults: { reliability: 1, unlisted: 0, settled: 0.95 },
    bench: {
      power: {
        title: 'Power',
        start: 'off',
        states: { off: { title: 'Off' }, on: { title: 'On' } },
        changes: [
          { from: 'off', to: 'on', minutes: 1, say: 'Switch it on.' },
          { from: 'on', to: 'off', minutes: 1, say: 'Switch it off.' },
        ],
      },
    },
    interlocks: [
      { change: { power: 'on' }, until: { short: ['clear'] }, because: 'A short must not get power.' },
    ],
    tests: {
      short: { ...aTest, results: results('clear', 'shorted') },
      look: { ...aTest, results: results('good', 'burnt') },
      probe: { ...aTest, needs: { power: 'on' }, results: results('high', 'low') },
    },
    findings: {
      a: aFinding({ short: 'clear', look: 'burnt', probe: 'high' }),
      b: aFinding({ short: 'clear', look: 'good', probe: 'high' }),
      c: aFinding({ short: 'clear', look: 'good', probe: 'low' }),
    },
    symptoms: { shown: { title: 'Shown', weights: { a: 1, b: 1, c: 1 } } },
    ...over,
  };
}

function stood(results: Results, over: Partial<TreeDocument> = {}, job: Partial<JobState> = {}) {
  const tree = treeOf(document(over));
  const first = firstSituation(tree, 'shown');
  const answers = Object.entries(results).map(([id, result]) => ({ test: id, result, era: 0 }));
  const question = {
    model: compileFaultModel(tree, NO_HISTORY),
    goal: 'isolate' as const,
    job: { ...first.job, answers, ...job },
    bench: first.bench,
    rate: null,
  };
  const problem = problemOf(question);
  const plans: readonly Plan[] = [planExact(question), planFast(question)];
  return { problem, plans, ended: hasEnded(problem, startPosition(problem)) };
}

/** Both plans say so as well: nothing to do, and no minutes. */
function expectEnd({ ended, plans }: ReturnType<typeof stood>): void {
  expect(ended).toBe(true);
  for (const { actions, expectedTotal, gap } of plans) {
    expect(actions).toEqual([]);
    expect([expectedTotal, gap]).toEqual([0, 0]);
  }
}

function namesOf({ actions }: Plan): readonly string[] {
  return actions.map(({ id }) => id).sort();
}

describe('isolating', () => {
  test('has ended where one finding holds all that it must', () => {
    expectEnd(stood({ look: 'burnt' }));
  });

  test('has not ended where a test that is left tells findings apart', () => {
    const { ended, plans } = stood({ short: 'clear', look: 'good' });
    expect(ended).toBe(false);
    for (const plan of plans) expect(namesOf(plan)).toEqual(['probe']);
  });

  test('has not ended where the test that tells them apart waits for an interlock that may yet open', () => {
    const { ended, plans } = stood({ look: 'good' });
    expect(ended).toBe(false);
    for (const plan of plans) {
      expect(namesOf(plan)).toEqual(['short']);
      // `short`, power on, `probe`: a minute each, and certain.
      expect(Math.abs(plan.expectedTotal - 3)).toBeLessThanOrEqual(1e-9);
    }
  });

  test('has ended in an ambiguity group where that interlock’s test has shown what keeps it shut', () => {
    const findings = document().findings;
    const doubtful = Object.fromEntries(
      Object.entries(findings).map(([id, finding]) => [
        id,
        { ...finding, expects: { ...finding.expects, short: { clear: 0.5, shorted: 0.5 } } },
      ]),
    );
    expectEnd(stood({ short: 'shorted', look: 'good' }, { findings: doubtful }));
  });

  test('has ended in an ambiguity group where the test that tells them apart was left out', () => {
    expectEnd(
      stood({ short: 'clear', look: 'good' }, {}, { skips: [{ test: 'probe', reason: 'No probe here.' }] }),
    );
  });

  test('has ended in an ambiguity group where all that is left tells nothing', () => {
    const { a, b } = document().findings;
    if (a === undefined || b === undefined) throw new Error('The tree has lost its findings.');
    const alike = { a, b, c: { ...b } };
    expectEnd(stood({ look: 'good' }, { findings: alike }));
  });

  test('goes on after a remedy by making again the test that opens an interlock, where it stands as it must', () => {
    const remedy = { finding: 'a', state: 'not-mended' as const, evidence: [], prove: [], proofs: [] };
    const after = { remedies: [remedy], era: 1 };
    const again = stood({ short: 'clear', look: 'good' }, {}, after);
    expect(again.ended).toBe(false);
    for (const plan of again.plans) expect(namesOf(plan)).toEqual(['short']);
    expect([...reachable(again.problem)].sort()).toEqual(['probe', 'short']);
  });
});

test('a finding counts as settled from `settled` on, less 1e-9 for lost digits', () => {
  const { problem } = stood({});
  const isHeld = (share: number) => isSettled(problem, Float64Array.of(share, 1 - share, 0, 0));
  expect([0.95, 0.95 - 9e-10, 1].map(isHeld)).toEqual([true, true, true]);
  expect([0.95 - 2e-9, 0.9, 0.5].map(isHeld)).toEqual([false, false, false]);
});

test('what is unlisted can be settled on as well', () => {
  const { problem } = stood({});
  expect(isSettled(problem, Float64Array.of(0.02, 0.01, 0.01, 0.96))).toBe(true);
});

test('a test moves a belief just when two findings that can be give a result differently', () => {
  const { problem } = stood({});
  const [short, look, probe] = problem.tests;
  if (short === undefined || look === undefined || probe === undefined)
    throw new Error('Three tests are wanted.');
  const bc = Float64Array.of(0, 0.5, 0.5, 0);
  const ab = Float64Array.of(0.5, 0.5, 0, 0);
  expect([short, look, probe].map((one) => moves(one, bc))).toEqual([false, false, true]);
  expect([short, look, probe].map((one) => moves(one, ab))).toEqual([false, true, false]);
});

function reachable(problem: Problem): readonly string[] {
  return [...reachableTests(problem, startPosition(problem))].map((at) => problem.tests[at]?.id ?? '');
}
