import { hasEnded } from '../../trees/plan/isolate-end.ts';
import { positionKeys } from '../../trees/plan/key.ts';
import { remedyOutlook, testMinutes, testOutcomes, type Outcome } from '../../trees/plan/outcome.ts';
import { startPosition, viewAt, type Position } from '../../trees/plan/position.ts';
import { problemOf, type Problem } from '../../trees/plan/problem.ts';
import type { PlanQuestion } from '../../trees/plan/index.ts';

/** What plain dynamic programming finds, and how many positions it went through. */
export interface PlainPlan {
  readonly expectedTotal: number;
  readonly positions: number;
}

/**
 * The least expected minutes by dynamic programming over every position that can be come to, each gone through once: the
 * planner's own moves, with no bound, no order and nothing left out. What the exact search's bounds save is measured against it. `found` is told of every position that is no end, and of what is least there.
 */
export function plainPlan(
  question: PlanQuestion,
  found: (position: Position, expectedTotal: number) => void = () => undefined,
): PlainPlan {
  const problem = problemOf(question);
  const key = positionKeys(problem);
  const values = new Map<string, number>();
  const valueOf = (position: Position): number => {
    const name = key(position);
    const known = values.get(name);
    if (known !== undefined) return known;
    const ended = problem.goal === 'isolate' && hasEnded(problem, position);
    const value = ended ? 0 : leastOf(position);
    values.set(name, value);
    if (!ended) found(position, value);
    return value;
  };
  const totalOf = (minutes: number, outcomes: readonly Outcome[]): number =>
    outcomes.reduce(
      (sum, { probability, minutes: after, position }) => sum + probability * (after + valueOf(position)),
      minutes,
    );
  const leastOf = (position: Position): number => {
    const view = viewAt(problem, position.marks);
    let least = problem.goal === 'fix' ? problem.escalate : Infinity;
    for (let at = 0; at < problem.tests.length; at += 1) {
      const minutes = testMinutes(problem, view, position, at);
      if (minutes < Infinity) least = Math.min(least, totalOf(minutes, testOutcomes(problem, position, at)));
    }
    for (const { minutes, fails } of repairsOf(problem, position))
      least = Math.min(least, totalOf(minutes, fails === null ? [] : [fails]));
    return least;
  };
  return { expectedTotal: valueOf(startPosition(problem)), positions: values.size };
}

function repairsOf(problem: Problem, position: Position) {
  if (problem.goal === 'isolate') return [];
  const view = viewAt(problem, position.marks);
  return problem.remedies.flatMap((_, row) => remedyOutlook(problem, view, position, row) ?? []);
}
