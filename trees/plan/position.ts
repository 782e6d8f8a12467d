import type { BenchView } from './bench-table.ts';
import { GIVEN, isFresh, resultAt } from './marks.ts';
import type { Problem } from './problem.ts';

/** Where a plan stands: the marks (marks.ts) and the belief that follows from them. */
export interface Position {
  readonly marks: Uint16Array;
  /** By finding, `unlisted` last; sums to one. */
  readonly belief: Float64Array;
}

export function startPosition(problem: Problem): Position {
  return { marks: problem.start, belief: beliefAt(problem, problem.start) };
}

/**
 * P(f|evidence) as DESIGN section 4 has it, from the prior, the standing results and the remedies tried; all on `unlisted`
 * where the evidence excludes everything.
 */
export function beliefAt({ prior, tests, remedies }: Problem, marks: Uint16Array): Float64Array {
  const belief = prior.slice();
  const findings = belief.length;
  tests.forEach(({ table, given }, test) => {
    const mark = marks[test] ?? 0;
    const result = resultAt(mark);
    if (result < 0) return;
    const column = (mark & GIVEN) === 0 ? table.subarray(result * findings, (result + 1) * findings) : given;
    for (let row = 0; row < findings; row += 1) belief[row] = (belief[row] ?? 0) * (column?.[row] ?? 0);
    normalise(belief);
  });
  remedies.forEach(({ fixRate }, row) => {
    if (marks[tests.length + row] === 1) belief[row] = (belief[row] ?? 0) * (1 - fixRate);
  });
  normalise(belief);
  return belief;
}

/** Scales to a sum of one, in place; gives the sum it had. Where that is zero all goes to the last. */
export function normalise(belief: Float64Array): number {
  let total = 0;
  for (const share of belief) total += share;
  if (total > 0) for (let row = 0; row < belief.length; row += 1) belief[row] = (belief[row] ?? 0) / total;
  else belief[belief.length - 1] = 1;
  return total;
}

/** The state of an axis. */
export function stateAt({ tests, remedies }: Problem, marks: Uint16Array, axis: number): number {
  return marks[tests.length + remedies.length + axis] ?? 0;
}

export function setState(problem: Problem, marks: Uint16Array, axis: number, state: number): void {
  marks[problem.tests.length + problem.remedies.length + axis] = state;
}

/** What changeovers cost as the interlocks stand. */
export function viewAt({ bench }: Problem, marks: Uint16Array): BenchView {
  if (bench.locks.length === 0) return bench.view([]);
  const shut = bench.locks.flatMap(({ until }, index) => {
    const isOpen = until.every(({ test, allowed }) => isAllowed(marks[test] ?? 0, allowed));
    return isOpen ? [] : [index];
  });
  return bench.view(shut);
}

/** An opener's verdict: fresh, and its result allowed or vouched for by a proof. */
export function isAllowed(mark: number, allowed: readonly boolean[]): boolean {
  if (!isFresh(mark)) return false;
  const result = resultAt(mark);
  return result < 0 || allowed[result] === true;
}

/** Minutes of the changeovers to wanted states; infinite where they cannot be had now. */
export function changeoverMinutes(
  problem: Problem,
  view: BenchView,
  marks: Uint16Array,
  needs: Int16Array,
): number {
  let minutes = 0;
  for (let axis = 0; axis < needs.length; axis += 1) {
    const wanted = needs[axis] ?? -1;
    if (wanted >= 0) minutes += view.minutes(axis, stateAt(problem, marks, axis), wanted);
  }
  return minutes;
}

/** Puts the bench as wanted, in place. */
export function changeOver(problem: Problem, marks: Uint16Array, needs: Int16Array): void {
  for (let axis = 0; axis < needs.length; axis += 1) {
    const wanted = needs[axis] ?? -1;
    if (wanted >= 0) setState(problem, marks, axis, wanted);
  }
}

/**
 * Leaves states that an interlock now bars, in place, one changeover after another as the chart asks for them; gives the
 * minutes. Where none leads out the bench stays.
 */
export function leaveBarred(problem: Problem, marks: Uint16Array): number {
  if (problem.bench.locks.length === 0) return 0;
  let minutes = 0;
  for (let turn = 0; turn < MOST_LEAVINGS; turn += 1) {
    const view = viewAt(problem, marks);
    const axis = barredAxis(problem, view, marks);
    const out = axis < 0 ? null : view.wayOut(axis, stateAt(problem, marks, axis));
    if (out === null) return minutes;
    setState(problem, marks, axis, out.to);
    minutes += out.minutes;
  }
  return minutes;
}

/** No chain of leavings is longer than the bench has states; this only guards against a tree gone wrong. */
const MOST_LEAVINGS = 100;

/** The axis that the first shut interlock in the tree's order wants left; -1 where the bench stands safely. */
function barredAxis(problem: Problem, view: BenchView, marks: Uint16Array): number {
  for (const { until, watches } of problem.bench.locks) {
    if (until.every(({ test, allowed }) => isAllowed(marks[test] ?? 0, allowed))) continue;
    const held = watches.filter(({ axis, state }) => stateAt(problem, marks, axis) === state);
    const [first] = held.sort((a, b) => a.axis - b.axis);
    if (first !== undefined && view.isBarred(first.axis, first.state)) return first.axis;
  }
  return -1;
}
