import { beliefOf, NO_EVIDENCE } from '../../trees/belief/index.ts';
import { informationGain, planFast, type PlanQuestion } from '../../trees/plan/index.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';
import { medianMs, type Measure } from './measure.ts';

const ROUNDS = 21;
const WARM_UPS = 3;
const usual = { unlisted: 0.02, settled: 0.95, benchStates: 3 } as const;

const KINDS: Readonly<Record<string, Omit<PlanShape, 'findings' | 'tests'>>> = {
  'isolate, certain': { goal: 'isolate', certain: true, benchStates: 3 },
  'isolate, doubtful': { ...usual, goal: 'isolate', certain: false },
  'fix, doubtful, proofs of 2 tests': { ...usual, goal: 'fix', certain: false, proofTests: 2 },
};

const SIZES = [
  { findings: 40, tests: 60, atMost: 5 },
  { findings: 200, tests: 300, atMost: 50 },
] as const;

/** One answer of the fast plan, from the question; against the belief with the information gain of each test. */
export default async function (): Promise<Measure[]> {
  return SIZES.flatMap(({ atMost, ...size }) =>
    Object.entries(KINDS).map(([kind, shape]) => {
      const question = randomQuestion({ ...shape, ...size }, 1);
      for (let turn = 0; turn < WARM_UPS; turn += 1) planFast(question);
      const figure = medianMs(ROUNDS, () => planFast(question));
      const gains = medianMs(ROUNDS, () => gainsOf(question));
      return {
        name: `fast plan, ${String(size.findings)} x ${String(size.tests)}, ${kind}`,
        figure,
        unit: 'ms',
        limit: { atMost },
        against: `${gains.toFixed(2)} ms for the belief and each test's information gain`,
      };
    }),
  );
}

function gainsOf({ model, job }: PlanQuestion): readonly number[] {
  const belief = beliefOf(model, job.symptom, NO_EVIDENCE);
  return Object.keys(model.tree.tests).map((test) => informationGain(model, belief, test));
}
