import { planExact, type PlanQuestion } from '../../trees/plan/index.ts';
import { plainPlan } from '../support/random-plan-plain.ts';
import { randomQuestion, type PlanShape } from '../support/random-plan.ts';
import type { Measure } from './measure.ts';

/** Seconds that an optimum may take. */
const LIMIT = { atMost: 10 };
const AGREES = 1e-9;

interface Case {
  readonly name: string;
  readonly shape: PlanShape;
  readonly seeds: number;
  /** Where there are millions of positions, to go through them all would take minutes. */
  readonly plain?: false;
}

const certain = { goal: 'isolate', certain: true, benchStates: 3 } as const;
const doubtful = { goal: 'isolate', certain: false, unlisted: 0.02, settled: 0.95 } as const;
const fix = { ...doubtful, goal: 'fix', findings: 5, tests: 7 } as const;
const usual = { unlisted: 0.02, settled: 0.95 } as const;

const CASES: readonly Case[] = [
  { name: 'isolate 16 x 20, certain', shape: { ...certain, findings: 16, tests: 20 }, seeds: 9 },
  {
    name: 'isolate 16 x 20, certain, one result in ten odd',
    shape: { ...certain, findings: 16, tests: 20, odd: 0.1 },
    seeds: 9,
  },
  {
    name: 'isolate 16 x 20, certain, unlisted 0.02, settled 0.95',
    shape: { ...certain, ...usual, findings: 16, tests: 20 },
    seeds: 9,
    plain: false,
  },
  {
    name: 'isolate 16 x 20 of 3 results, certain',
    shape: { ...certain, findings: 16, tests: 20, results: 3 },
    seeds: 9,
  },
  {
    name: 'isolate 10 x 12, certain, unlisted 0.02, settled 0.95',
    shape: { ...certain, ...usual, findings: 10, tests: 12 },
    seeds: 9,
  },
  { name: 'isolate 8 x 10, doubtful', shape: { ...doubtful, findings: 8, tests: 10 }, seeds: 5 },
  {
    name: 'isolate 8 x 10, doubtful, 3 bench states',
    shape: { ...doubtful, findings: 8, tests: 10, benchStates: 3 },
    seeds: 5,
  },
  {
    name: 'isolate 6 x 7 of 3 results, doubtful, 3 bench states',
    shape: { ...doubtful, findings: 6, tests: 7, results: 3, benchStates: 3 },
    seeds: 5,
  },
  { name: 'fix 5 x 7, doubtful', shape: fix, seeds: 5 },
  {
    name: 'fix 5 x 7, doubtful, 3 bench states, proofs of 2 tests',
    shape: { ...fix, benchStates: 3, proofTests: 2 },
    seeds: 5,
  },
  {
    name: 'fix 5 x 7, doubtful, 3 bench states, proofs, disturbing one test in ten',
    shape: { ...fix, benchStates: 3, proofTests: 2, disturbs: 0.1 },
    seeds: 5,
  },
  {
    name: 'fix 5 x 5 of 3 results, doubtful, 3 bench states, proofs',
    shape: { ...fix, tests: 5, results: 3, benchStates: 3, proofTests: 2 },
    seeds: 5,
  },
];

/** How long the optimum takes, against dynamic programming over every position without bounds. */
export default async function (): Promise<Measure[]> {
  const measures: Measure[] = [];
  for (const one of CASES) {
    console.log(`  … ${one.name}`);
    measures.push(...measured(one));
  }
  return measures;
}

function measured({ name, shape, seeds, plain }: Case): readonly Measure[] {
  const questions = Array.from({ length: seeds }, (_, seed) => randomQuestion(shape, seed + 1));
  planExact(randomQuestion({ ...shape, findings: 3, tests: 3 }, 1));
  const times = questions.map(solved).sort((a, b) => a - b);
  const [first] = questions;
  const ratio = first === undefined || plain === false ? [] : [againstPlain(name, first)];
  const figures = { median: times[Math.floor(times.length / 2)] ?? 0, worst: times.at(-1) ?? 0 };
  return [
    { name: `${name}, worst of ${String(seeds)}`, figure: figures.worst, unit: 's', limit: LIMIT },
    { name: `${name}, median`, figure: figures.median, unit: 's' },
    ...ratio,
  ];
}

function solved(question: PlanQuestion): number {
  const start = performance.now();
  const { gap } = planExact(question);
  const seconds = (performance.now() - start) / 1000;
  if (!(gap <= AGREES)) throw new Error(`Not solved: a gap of ${String(gap)} minutes is left.`);
  return seconds;
}

function againstPlain(name: string, question: PlanQuestion): Measure {
  const seconds = solved(question);
  const start = performance.now();
  const { expectedTotal, positions } = plainPlan(question);
  const plain = (performance.now() - start) / 1000;
  const difference = Math.abs(planExact(question).expectedTotal - expectedTotal);
  if (!(difference <= AGREES))
    throw new Error(`Plain programming differs by ${String(difference)}: ${name}.`);
  return {
    name: `${name}, exact / plain`,
    figure: seconds / plain,
    unit: 'times',
    against: `every one of ${String(positions)} positions gone through (${plain.toFixed(2)} s)`,
  };
}
