import fc from 'fast-check';
import { expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import type { Goal } from '../../trees/plan/index.ts';
import { formerPath } from '../../trees/plan/former-path.ts';
import { improver } from '../../trees/plan/improve.ts';
import { testMinutes } from '../../trees/plan/outcome.ts';
import { startPosition, viewAt } from '../../trees/plan/position.ts';
import { problemOf } from '../../trees/plan/problem.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';

/** Every test that can be made at the start of a drawn path, with what it and the path after it take. */
function startOf(tree: Tree, goal: Goal) {
  const model = compileFaultModel(tree, NO_HISTORY);
  const { job, bench } = firstSituation(tree, 'symptom-0');
  const problem = problemOf({ model, goal, job, bench, rate: 40 }, goal === 'fix');
  const position = startPosition(problem);
  const path = formerPath(problem);
  const view = viewAt(problem, position.marks);
  const tests = problem.tests.flatMap(({ id }, at) =>
    testMinutes(problem, view, position, at) < Infinity
      ? [{ id, at, minutes: path.minutesBy(position, at, path.first, Infinity) }]
      : [],
  );
  return { problem, position, path, tests };
}

const goals = fc.constantFrom<Goal>('isolate', 'fix');

it('what a test takes is given up on where it is more than asked for, and else is the same, within 1e-9', () => {
  let givenUp = 0;
  fc.assert(
    fc.property(arbitraryTree(), goals, fc.double({ min: 0, max: 1.5, noNaN: true }), (tree, goal, part) => {
      const { position, path, tests } = startOf(tree, goal);
      for (const { at, minutes } of tests) {
        const most = minutes * part;
        const found = path.minutesBy(position, at, path.first, most);
        if (minutes > most + 1e-6) expect(found).toBe(Infinity);
        else if (minutes <= most) expect(Math.abs(found - minutes)).toBeLessThan(1e-9 * Math.max(1, minutes));
        givenUp += Number(found === Infinity);
      }
    }),
    { numRuns: 150 },
  );
  expect(givenUp).toBeGreaterThan(50);
});

it('the bettered path begins with the act that takes least, the path’s own where no other saves anything', () => {
  let others = 0;
  fc.assert(
    fc.property(arbitraryTree(), goals, (tree, goal) => {
      const { problem, path, tests } = startOf(tree, goal);
      const policy = improver(problem)(0.9);
      if (policy.kind !== 'test') return;
      const chosen = tests.find(({ id }) => id === policy.test);
      const step =
        path.first.kind === 'step' ? tree.symptoms['symptom-0']?.steps[path.first.step] : undefined;
      const own = tests.find(({ id }) => id === step?.test);
      expect(chosen).toBeDefined();
      const minutes = chosen?.minutes ?? Infinity;
      if (own !== undefined && own !== chosen) expect(minutes).toBeLessThan(own.minutes - 0.004);
      if (own !== chosen) others += 1;
      const before = own === chosen ? 0.005 : 0;
      expect(minutes).toBeLessThanOrEqual(
        Math.min(...tests.filter(isTold).map((one) => one.minutes)) + before + 1e-9,
      );

      function isTold({ at }: { readonly at: number }): boolean {
        return problem.tests[at]?.telling === true;
      }
    }),
    { numRuns: 150 },
  );
  expect(others).toBeGreaterThan(2);
});
