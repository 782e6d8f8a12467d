import { startSearch, type PlanQuestion } from '../../trees/plan/index.ts';
import { followedFast } from '../support/random-plan-followed.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';
import type { Measure } from './measure.ts';

const QUESTIONS = 300;
const TOLD_EVERY = 50;

type Drawn = (seed: number) => PlanShape;

const KINDS: Readonly<Record<string, Drawn>> = {
  'isolate 10 x 12, certain': (seed) => ({
    goal: 'isolate',
    findings: 10,
    tests: 12,
    certain: true,
    benchStates: 1 + (seed % 3),
    // Half of them as in a real tree, where most findings leave most tests sound.
    ...(seed % 2 === 0 ? { odd: 0.15 } : {}),
  }),
  'fix 5 x 7, doubtful': (seed) => ({
    goal: 'fix',
    findings: 5,
    tests: 7,
    certain: false,
    unlisted: 0.02,
    settled: 0.95,
    fixRate: 0.95,
    benchStates: 1 + (seed % 3),
    proofTests: Math.floor(seed / 3) % 3,
    disturbs: seed % 4 === 0 ? 0.1 : 0,
  }),
};

/** How much more than the optimum it costs to do what the fast plan says, step by step. */
export default async function (): Promise<Measure[]> {
  return Object.entries(KINDS).flatMap(([name, shape]) => excessOf(name, shape));
}

function excessOf(name: string, shapeOf: Drawn): readonly Measure[] {
  const excesses: number[] = [];
  let least = 0;
  let asked = 0;
  for (let seed = 1; seed <= QUESTIONS; seed += 1) {
    const question = randomQuestion(shapeOf(seed), seed);
    const optimum = optimumOf(question);
    const followed = followedFast(question);
    const excess = 100 * (followed.expectedTotal / optimum - 1);
    if (excess < -LAST_DIGITS) throw new Error(`${name}, seed ${String(seed)}: below the optimum.`);
    excesses.push(excess);
    least += optimum;
    asked += followed.asked;
    if (seed % TOLD_EVERY === 0) console.log(`  … ${name}: ${String(seed)} of ${String(QUESTIONS)}`);
  }
  excesses.sort((a, b) => a - b);
  const mean = excesses.reduce((sum, excess) => sum + excess, 0) / QUESTIONS;
  const against = `the optimum, ${(least / QUESTIONS).toFixed(2)} min on average (asked at ${String(asked)} positions)`;
  return [
    { name: `${name}, mean excess`, figure: mean, unit: '%', limit: { atMost: 2 }, against },
    {
      name: `${name}, excess of all but one in a hundred`,
      figure: excesses[Math.ceil(0.99 * QUESTIONS) - 1] ?? 0,
      unit: '%',
      limit: { atMost: 10 },
      against,
    },
    { name: `${name}, largest excess`, figure: excesses.at(-1) ?? 0, unit: '%', against },
  ];
}

/** The optimum, without what every other act first would come to. */
function optimumOf(question: PlanQuestion): number {
  const search = startSearch(question);
  while (!search.solved && search.plan().gap > CLOSED) search.run(PORTION);
  return search.plan().expectedTotal;
}

/** Minutes that are none. */
const CLOSED = 1e-9;
/** Positions opened between two looks at the gap. */
const PORTION = 200;

/** Per cent: sums of the same minutes in another order may differ in the last digits. */
const LAST_DIGITS = 1e-7;
