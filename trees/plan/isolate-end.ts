import type { BenchView } from './bench-table.ts';
import { isFresh, resultAt } from './marks.ts';
import { isAllowed, stateAt, viewAt, type Position } from './position.ts';
import { mayBeMade, testMinutes } from './outcome.ts';
import type { PlanTest, Problem } from './problem.ts';

/** Where a difference between two probabilities begins. */
const SAME = 1e-12;
/** How near to `settled` counts as reached: sums of shares lose the last digits. */
const NEAR = 1e-9;

/** Whether one finding holds at least `settled` of the probability. */
export function isSettled({ settled }: Problem, belief: Float64Array): boolean {
  return belief.some((share) => share >= settled - NEAR);
}

/** Whether some result of a test would move the belief: two findings that can be give it with different probability. */
export function moves({ table, results, telling }: PlanTest, belief: Float64Array): boolean {
  if (!telling) return false;
  const findings = belief.length;
  let first = 0;
  while (first < findings && !((belief[first] ?? 0) > 0)) first += 1;
  for (let result = 0; result < results; result += 1) {
    const column = result * findings;
    const value = table[column + first] ?? 0;
    for (let row = first + 1; row < findings; row += 1)
      if ((belief[row] ?? 0) > 0 && Math.abs((table[column + row] ?? 0) - value) > SAME) return true;
  }
  return false;
}

/** Isolating ends where one finding is settled, or no test that is left can move the belief (an ambiguity group). */
export function hasEnded(problem: Problem, position: Position): boolean {
  if (isSettled(problem, position.belief)) return true;
  const { tests } = problem;
  const { marks, belief } = position;
  const view = viewAt(problem, marks);
  const out: number[] = [];
  for (let at = 0; at < tests.length; at += 1) {
    const test = tests[at];
    if (test === undefined || !test.available || resultAt(marks[at] ?? 0) >= 0 || !moves(test, belief))
      continue;
    if (testMinutes(problem, view, position, at) < Infinity) return false;
    out.push(at);
  }
  if (out.length === 0) return true;
  const reachable = reachableTests(problem, position);
  return !out.some((at) => reachable.has(at));
}

/** Tests that are possible now, or would be after others that are possible have given some result. */
export function reachableTests(problem: Problem, position: Position): ReadonlySet<number> {
  const { tests, bench } = problem;
  const reached = new Set<number>();
  for (let before = -1; before !== reached.size;) {
    before = reached.size;
    const shut = bench.locks.flatMap(({ until }, index) =>
      until.every(({ test, allowed }) => canOpen(problem, position, reached, test, allowed)) ? [] : [index],
    );
    const view = bench.view(shut);
    tests.forEach((_, at) => {
      if (!reached.has(at) && isWithinReach(problem, position, view, reached, at)) reached.add(at);
    });
  }
  return reached;
}

function canOpen(
  { tests }: Problem,
  { marks, belief }: Position,
  reached: ReadonlySet<number>,
  at: number,
  allowed: readonly boolean[],
): boolean {
  const mark = marks[at] ?? 0;
  if (isAllowed(mark, allowed)) return true;
  if (!reached.has(at)) return false;
  const result = resultAt(mark);
  if (result >= 0) return !isFresh(mark) && allowed[result] === true;
  const table = tests[at]?.table;
  return allowed.some(
    (is, column) =>
      is && belief.some((share, row) => share > 0 && (table?.[column * belief.length + row] ?? 0) > 0),
  );
}

function isWithinReach(
  problem: Problem,
  { marks }: Position,
  view: BenchView,
  reached: ReadonlySet<number>,
  at: number,
): boolean {
  const test = problem.tests[at];
  if (test === undefined) return false;
  const { reference } = test;
  if (reference >= 0 && resultAt(marks[reference] ?? 0) < 0 && !reached.has(reference)) return false;
  const mark = marks[at] ?? 0;
  const isOpenToMake =
    reference >= 0 && reached.has(reference)
      ? resultAt(mark) < 0
        ? test.available
        : test.opens && !isFresh(mark)
      : mayBeMade(problem, marks, at);
  if (!isOpenToMake) return false;
  return test.needs.every(
    (state, axis) => state < 0 || view.minutes(axis, stateAt(problem, marks, axis), state) < Infinity,
  );
}
