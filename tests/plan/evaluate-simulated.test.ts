import { describe, expect, it } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { evaluate, type Goal } from '../../trees/plan/index.ts';
import { simulateJobs } from '../support/simulate-jobs.ts';
import { smallTree } from '../support/trees.ts';

const JOBS = 6000;
const SEED = 20261126;

describe.each<Goal>(['isolate', 'fix'])('jobs simulated with the chart’s machine, to %s', (goal) => {
  it.each(Object.keys(smallTree().symptoms))(
    'take the minutes that the evaluation expects, and end as often well, within 4 standard errors: %s',
    (symptom) => {
      const question = { model: compileFaultModel(smallTree(), NO_HISTORY), symptom, goal, rate: 45 };
      const found = evaluate(question);
      const simulated = simulateJobs({ ...question, jobs: JOBS, seed: SEED });
      const share = (probability: number) => 4 * Math.sqrt((probability * (1 - probability)) / JOBS);
      expect(simulated.standardError).toBeGreaterThan(0);
      expect(Math.abs(simulated.meanMinutes - found.expectedMinutes)).toBeLessThan(
        4 * simulated.standardError,
      );
      for (const end of ['rightFinding', 'wrongFix', 'passedOn'] as const)
        expect(Math.abs(simulated[end] - found[end]), end).toBeLessThanOrEqual(share(found[end]) + 1e-12);
    },
  );

  it('come out the same from the same seed, and otherwise from another', () => {
    const question = {
      model: compileFaultModel(smallTree(), NO_HISTORY),
      symptom: 'dark-screen',
      goal,
      rate: null,
    };
    const [one, again, other] = [1, 1, 2].map((seed) => simulateJobs({ ...question, jobs: 50, seed }));
    expect(again).toEqual(one);
    expect(other).not.toEqual(one);
  });
});
