import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { advise, type Advice, type Why } from '../../trees/plan/index.ts';
import { arbitraryQuestion, questionOf } from '../support/arbitrary-plan.ts';
import { randomQuestion } from '../support/random-plan.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';
import { twoFindings } from './two-findings.ts';

const TOLERANCE = 1e-9;

/** The advice for a new job with this document. */
function adviceFor(document: TreeDocument, next: Parameters<typeof advise>[1]): Advice {
  const tree = treeOf(document);
  const { job, bench } = firstSituation(tree, 'dead');
  return advise({ model: compileFaultModel(tree, NO_HISTORY), job, bench, rate: null }, next);
}

/** {@link twoFindings} with a test that tells nothing, of so many minutes. */
function withIdleTest(minutes: number): TreeDocument {
  const document = twoFindings();
  const results = { good: { title: 'Good' }, bad: { title: 'Bad' } };
  const idle = { title: 'Idle', ask: 'Look away.', instrument: 'eye', minutes, results } as const;
  return { ...document, tests: { ...document.tests, idle } };
}

describe('where the tree’s next act is the planner’s', () => {
  test.each([
    { findings: 4, tests: 4 },
    { findings: 40, tests: 60 },
  ])('nothing is saved and nothing is worth saying: $findings findings, $tests tests', (size) => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const shape = { ...size, goal: 'fix', certain: false, unlisted: 0.02, benchStates: 2 } as const;
      const question = randomQuestion(shape, seed);
      const { best } = advise(question, null);
      if (best === null || best.kind === 'pass-on') throw new Error('An act on the unit is wanted.');
      const { kind, id } = best;
      const asked = advise(question, { kind, id });
      expect(asked.best).toMatchObject({ kind, id });
      expect(asked.byTree).toMatchObject({ kind, id });
      expect([asked.saves, asked.worthSaying]).toEqual([0, false]);
    }
  });
});

describe('where the tree has no next act', () => {
  test('there is the best one alone, and nothing to save', () => {
    const { best, byTree, saves, worthSaying } = adviceFor(twoFindings(), null);
    expect(best).not.toBeNull();
    expect([byTree, saves, worthSaying]).toEqual([null, 0, false]);
  });
});

describe('where the tree’s next test tells nothing', () => {
  test.each([0.1, 2, 7.5])('it costs its %d minutes and saves none of them, within 1e-9', (minutes) => {
    const { plan, best, byTree, saves } = adviceFor(withIdleTest(minutes), { kind: 'test', id: 'idle' });
    expect(best?.id).not.toBe('idle');
    expect(byTree).toMatchObject({ kind: 'test', id: 'idle', minutes });
    expect(
      Math.abs((byTree?.expectedTotal ?? Number.NaN) - (plan.expectedTotal + minutes)),
    ).toBeLessThanOrEqual(TOLERANCE);
    expect(Math.abs(saves - minutes)).toBeLessThanOrEqual(TOLERANCE);
  });
});

describe('is worth saying', () => {
  const says = (minutes: number) => adviceFor(withIdleTest(minutes), { kind: 'test', id: 'idle' });

  test('from three in a hundred of what the tree’s act comes to, where that is more than half a minute', () => {
    const total = says(1).plan.expectedTotal;
    // m = 0.03 (total + m)
    const limit = (0.03 * total) / 0.97;
    expect(limit).toBeGreaterThan(0.5 - 1e-6);
    expect([says(limit - 0.001), says(limit + 0.001)].map(({ worthSaying }) => worthSaying)).toEqual([
      false,
      true,
    ]);
  });

  test('and from half a minute, where three in a hundred is less', () => {
    const cheap = (minutes: number) => {
      const document = withIdleTest(minutes);
      return adviceFor(
        { ...document, defaults: { ...document.defaults, escalate: 4 } },
        { kind: 'test', id: 'idle' },
      );
    };
    expect(cheap(1).plan.expectedTotal * 0.03).toBeLessThan(0.4);
    expect([0.49, 0.51].map((minutes) => cheap(minutes).worthSaying)).toEqual([false, true]);
  });
});

test('of any question: the saving is the difference of the two totals, said where it is enough, its reasons sound, within 1e-9', () => {
  const seen = { saved: 0, said: 0 };
  const drawn = fc.boolean().chain((certain) => arbitraryQuestion({ goal: 'fix', certain }));
  fc.assert(
    fc.property(drawn, fc.nat(99), fc.boolean(), (one, which, isTest) => {
      const question = questionOf(one);
      const { tree } = question.model;
      const ids = Object.keys(isTest ? tree.tests : tree.findings);
      const next = { kind: isTest ? 'test' : 'remedy', id: ids[which % ids.length] ?? '' } as const;
      const { plan, best, byTree, saves, worthSaying } = advise(question, next);
      expect(best?.expectedTotal).toBe(plan.actions[0]?.expectedTotal);
      const total = byTree?.expectedTotal ?? 0;
      const isSame = best?.kind === byTree?.kind && best?.id === byTree?.id;
      const difference = byTree === null || isSame ? 0 : Math.max(0, total - (best?.expectedTotal ?? 0));
      expect(Math.abs(saves - difference)).toBeLessThanOrEqual(TOLERANCE);
      expect(worthSaying).toBe(saves >= Math.max(0.5, 0.03 * total));
      if (best !== null) expectSound(best.why);
      if (saves > 0) seen.saved += 1;
      if (worthSaying) seen.said += 1;
    }),
    { numRuns: 300 },
  );
  expect(Math.min(seen.saved, seen.said)).toBeGreaterThan(20);
});

/** Shares sum to one, likeliest first; chances lie between nothing and one; two findings told apart are two. */
function expectSound(why: Why): void {
  switch (why.kind) {
    case 'test': {
      const sum = why.shares.reduce((total, share) => total + share, 0);
      expect(Math.abs(sum - 1)).toBeLessThanOrEqual(TOLERANCE);
      expect(why.shares).toEqual(why.shares.toSorted((a, b) => b - a));
      expect(why.settles).toBeGreaterThanOrEqual(0);
      expect(why.settles).toBeLessThanOrEqual(1 + TOLERANCE);
      if (why.tells === null) return;
      const [first, other] = why.tells;
      expect(first.finding).not.toBe(other.finding);
      expect(first.probability).toBeGreaterThanOrEqual(other.probability);
      return;
    }
    case 'remedy':
      expect(why.probability).toBeGreaterThan(0);
      expect(why.mends).toBeGreaterThan(0);
      expect(why.mends).toBeLessThanOrEqual(why.probability);
      return;
    case 'pass-on':
      expect(why.likeliest.probability).toBeGreaterThan(0);
      expect(why.likeliest.probability).toBeLessThanOrEqual(1 + TOLERANCE);
  }
}
