import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation } from '../../trees/chart/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { planExact } from '../../trees/plan/index.ts';
import { formerPath } from '../../trees/plan/former-path.ts';
import { problemOf } from '../../trees/plan/problem.ts';
import { startPosition } from '../../trees/plan/position.ts';

const text = readFileSync(new URL('../../trees/library/kw1-panel.tree.json', import.meta.url));

test('a search stopped at once on a shipped tree already has the tree’s own path for a plan, and says its gap', () => {
  const { tree } = readAndCheck(text);
  if (tree === null) throw new Error('kw1-panel has errors');
  const model = compileFaultModel(tree, NO_HISTORY);
  for (const symptom of Object.keys(tree.symptoms)) {
    const { job, bench } = firstSituation(tree, symptom);
    const question = { model, goal: 'fix', job, bench, rate: null } as const;
    const problem = problemOf(question);
    const path = formerPath(problem);
    const byPath = path.minutesFrom(startPosition(problem), path.first);
    const plan = planExact(question, { expansions: 0 });
    expect(plan.expectedTotal).toBeLessThanOrEqual(byPath + 1e-9);
    expect(byPath).toBeLessThan(tree.defaults.escalate);
    expect(plan.gap).toBeCloseTo(plan.expectedTotal - plan.lowerBound, 9);
    expect(plan.lowerBound).toBeGreaterThan(0);
  }
});
