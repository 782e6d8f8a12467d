import { FRESH, isFresh, resultAt } from './marks.ts';
import {
  beliefAt,
  changeOver,
  changeoverMinutes,
  leaveBarred,
  normalise,
  setState,
  type Position,
} from './position.ts';
import { proofOf } from './proof.ts';
import type { BenchView } from './bench-table.ts';
import type { Problem } from './problem.ts';

/** One thing that an act can lead to. */
export interface Outcome {
  /** The place of the test's result; -1 where no test was made. */
  readonly result: number;
  readonly probability: number;
  /** Minutes that this outcome adds to the act's own: leaving a state that is barred now. */
  readonly minutes: number;
  readonly position: Position;
}

/** An act's own minutes; infinite where a test cannot be made now. */
export function testMinutes(problem: Problem, view: BenchView, { marks }: Position, at: number): number {
  const test = problem.tests[at];
  if (test === undefined || !mayBeMade(problem, marks, at)) return Infinity;
  return changeoverMinutes(problem, view, marks, test.needs) + test.minutes;
}

/** A test is made once, and again only where an interlock waits for it since a remedy. */
export function mayBeMade(problem: Problem, marks: Uint16Array, at: number): boolean {
  const test = problem.tests[at];
  if (test === undefined) return false;
  const mark = marks[at] ?? 0;
  if (test.reference >= 0 && resultAt(marks[test.reference] ?? 0) < 0) return false;
  return resultAt(mark) < 0 ? test.available : test.opens && !isFresh(mark);
}

/** What a test can show, in the order of its results. Made again it shows what it showed. */
export function testOutcomes(problem: Problem, position: Position, at: number): readonly Outcome[] {
  const test = problem.tests[at];
  const { marks, belief } = position;
  if (test === undefined) return [];
  const fresh = test.opens ? FRESH : 0;
  const standing = marks[at] ?? 0;
  const put = (mark: number): { marks: Uint16Array; minutes: number } => {
    const next = marks.slice();
    next[at] = mark;
    changeOver(problem, next, test.needs);
    return { marks: next, minutes: test.opens ? leaveBarred(problem, next) : 0 };
  };
  if (resultAt(standing) >= 0) {
    const again = put(standing | fresh);
    return [
      {
        result: resultAt(standing),
        probability: 1,
        minutes: again.minutes,
        position: { marks: again.marks, belief },
      },
    ];
  }
  const outcomes: Outcome[] = [];
  for (let result = 0; result < test.results; result += 1) {
    const after = new Float64Array(belief.length);
    for (let row = 0; row < belief.length; row += 1)
      after[row] = (belief[row] ?? 0) * (test.table[result * belief.length + row] ?? 0);
    const probability = normalise(after);
    if (probability <= 0) continue;
    const next = put((result + 1) | fresh);
    outcomes.push({
      result,
      probability,
      minutes: next.minutes,
      position: { marks: next.marks, belief: after },
    });
  }
  return outcomes;
}

/** A remedy that can be done now: its minutes with changeovers, parts and proof, and what is left if it does not mend. */
export interface RemedyOutlook {
  readonly minutes: number;
  readonly mends: number;
  /** The chance that it does not mend, and where the job then stands. */
  readonly fails: Outcome | null;
}

/** Null where the remedy was tried, its finding cannot be, or its bench state cannot be had now. */
export function remedyOutlook(
  problem: Problem,
  view: BenchView,
  position: Position,
  row: number,
): RemedyOutlook | null {
  const minutes = remedyMinutes(problem, view, position, row);
  const remedy = problem.remedies[row];
  if (minutes === Infinity || remedy === undefined) return null;
  const { marks, belief } = position;
  const done = marks.slice();
  changeOver(problem, done, remedy.needs);
  for (let at = 0; at < problem.tests.length; at += 1) done[at] = (done[at] ?? 0) & ~FRESH;
  let dropped = false;
  for (const at of remedy.disturbs) {
    if (resultAt(done[at] ?? 0) >= 0) dropped = true;
    done[at] = 0;
  }
  const leaving = leaveBarred(problem, done);
  const proof = proofOf(problem, row, marks, done);
  const mends = (belief[row] ?? 0) * remedy.fixRate;
  const total = minutes + leaving + proof.minutes;
  if (1 - mends <= 0) return { minutes: total, mends, fails: null };
  if (problem.endsAtRemedy) return { minutes: total + (1 - mends) * problem.escalate, mends, fails: null };
  done[problem.tests.length + row] = 1;
  proof.bench.forEach((state, axis) => setState(problem, done, axis, state));
  for (const at of proof.made) if (vouches(problem, done, at)) done[at] = (done[at] ?? 0) | FRESH;
  const after = leaveBarred(problem, done);
  const next = dropped ? beliefAt(problem, done) : withoutMended(belief, row, remedy.fixRate);
  const fails = {
    result: -1,
    probability: 1 - mends,
    minutes: after,
    position: { marks: done, belief: next },
  };
  return { minutes: total, mends, fails };
}

/** Changeovers, work and parts of a remedy; infinite where it cannot be done now. */
export function remedyMinutes(
  problem: Problem,
  view: BenchView,
  { marks, belief }: Position,
  row: number,
): number {
  const remedy = problem.remedies[row];
  if (remedy === undefined || marks[problem.tests.length + row] === 1 || !((belief[row] ?? 0) > 0))
    return Infinity;
  return changeoverMinutes(problem, view, marks, remedy.needs) + remedy.minutes;
}

/** Whether a proof that made a test lets its interlocks count it: not where it stands with a result they do not allow. */
function vouches(problem: Problem, marks: Uint16Array, at: number): boolean {
  if (problem.tests[at]?.opens !== true) return false;
  const result = resultAt(marks[at] ?? 0);
  if (result < 0) return true;
  return problem.bench.locks.every(({ until }) =>
    until.every(({ test, allowed }) => test !== at || allowed[result] === true),
  );
}

function withoutMended(belief: Float64Array, row: number, fixRate: number): Float64Array {
  const after = belief.slice();
  after[row] = (after[row] ?? 0) * (1 - fixRate);
  normalise(after);
  return after;
}
