import { startSearch, type Plan } from '../../trees/plan/index.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';
import type { Measure } from './measure.ts';

const OPENINGS = [0, 10, 100, 1000] as const;
const size = { findings: 40, tests: 60, benchStates: 3 } as const;
const doubtful = { ...size, certain: false, unlisted: 0.02, settled: 0.95 } as const;

const SHAPES: Readonly<Record<string, PlanShape>> = {
  'isolate 40 x 60, certain': { ...size, goal: 'isolate', certain: true },
  'isolate 40 x 60, doubtful': { ...doubtful, goal: 'isolate' },
  'fix 40 x 60, doubtful, proofs of 2 tests': { ...doubtful, goal: 'fix', proofTests: 2 },
};

/** What an exact search stopped after so many openings says; throws where a gap is not finite, or has grown. */
export default async function (): Promise<Measure[]> {
  return Object.entries(SHAPES).flatMap(([name, shape]) => gapsOf(name, shape));
}

function gapsOf(name: string, shape: PlanShape): readonly Measure[] {
  const search = startSearch(randomQuestion(shape, 1));
  const first = search.plan();
  let before: Plan | null = null;
  let opened = 0;
  return OPENINGS.map((openings) => {
    const start = performance.now();
    for (; opened < openings; opened += 1) search.run(1);
    const milliseconds = performance.now() - start;
    const plan = search.plan();
    sound(name, plan, before);
    before = plan;
    return {
      name: `${name}, gap after ${String(openings)} openings (${milliseconds.toFixed(0)} ms more)`,
      figure: plan.gap,
      unit: 'min',
      limit: { atMost: first.gap },
      against: `${plan.expectedTotal.toFixed(2)} min by the plan, at least ${plan.lowerBound.toFixed(2)} by any`,
    };
  });
}

/** Sums of the same minutes in another order may differ in the last digits. */
const LAST_DIGITS = 1e-9;

function sound(name: string, plan: Plan, before: Plan | null): void {
  const { gap, expectedTotal, lowerBound, actions } = plan;
  if (!Number.isFinite(gap) || gap < 0) throw new Error(`${name}: a gap of ${String(gap)}.`);
  if (actions.length === 0) throw new Error(`${name}: nothing to do.`);
  if (before === null) return;
  const grown = [
    gap - before.gap,
    expectedTotal - before.expectedTotal,
    before.lowerBound - lowerBound,
  ].filter((more) => more > LAST_DIGITS);
  if (grown.length > 0) throw new Error(`${name}: bounds drew apart by ${grown.join(', ')}.`);
}
