import type { Tree } from '../document/index.ts';
import { resultAt } from './marks.ts';
import type { Position } from './position.ts';
import type { PlanTest, Problem } from './problem.ts';

/** Where a difference between two probabilities begins. */
const SAME = 1e-9;

/** How often a test gives each one of its results whatever the unit has, being mistaken: (1-g)/k (DESIGN section 4). */
function byMistake({ tests, defaults }: Tree, { id, results }: PlanTest): number {
  return (1 - (tests[id]?.reliability ?? defaults.reliability)) / results;
}

/** The probability of a result that is no mistake of the test: by finding, what is more than the test is wrong anyhow. */
export function meant(problem: Problem, at: number, result: number): Float64Array {
  const test = problem.tests[at];
  const findings = problem.findings.length;
  if (test === undefined) return new Float64Array(findings);
  const mistake = byMistake(problem.tree, test);
  return Float64Array.from({ length: findings }, (_, row) =>
    Math.max(0, (test.table[result * findings + row] ?? 0) - mistake - SAME),
  );
}

/**
 * Whether a result is expected at a position: of the units that have one of the listed findings and give it, more do so for what they
 * have than by a mistake of the test.
 */
export function isExpected(problem: Problem, { belief }: Position, at: number, result: number): boolean {
  const test = problem.tests[at];
  const expected = meant(problem, at, result);
  const findings = belief.length;
  let [all, some] = [0, 0];
  for (let row = 0; row < findings - 1; row += 1) {
    all += (belief[row] ?? 0) * (test?.table[result * findings + row] ?? 0);
    some += (belief[row] ?? 0) * (expected[row] ?? 0);
  }
  return some > all / 2;
}

/** An end at a finding says that the unit has it: it is no less likely than this part of the likeliest one's probability. */
const LEAST_PART = 0.5;

/**
 * Findings, by row, at which a path may end at a position, listed ones that no standing result speaks against and that none of these is
 * far likelier than. Others' remedies may be cheap enough to be worth a try before the unit is passed on, but a path that ends there
 * says of the unit what nobody believes.
 */
export function fitEnds(problem: Problem, position: Position): ReadonlySet<number> {
  const { belief } = position;
  const free = problem.remedies.flatMap((_, row) =>
    (belief[row] ?? 0) > 0 && !isContradicted(problem, position, row) ? [row] : [],
  );
  const most = free.reduce((so, row) => Math.max(so, belief[row] ?? 0), 0);
  return new Set(free.filter((row) => (belief[row] ?? 0) >= LEAST_PART * most));
}

/** Whether some standing result is one that a unit with a finding gives more often by a mistake of the test than for what it has. */
function isContradicted(problem: Problem, { marks }: Position, row: number): boolean {
  return problem.tests.some((test, at) => {
    const result = resultAt(marks[at] ?? 0);
    if (result < 0) return false;
    const share = test.table[result * problem.findings.length + row] ?? 0;
    return share < 1 / test.results - SAME && share <= 2 * byMistake(problem.tree, test) + SAME;
  });
}
