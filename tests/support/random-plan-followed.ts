import { lookAhead } from '../../trees/plan/fast.ts';
import { positionKeys } from '../../trees/plan/key.ts';
import { startPosition, type Position } from '../../trees/plan/position.ts';
import { problemOf } from '../../trees/plan/problem.ts';
import type { PlanQuestion } from '../../trees/plan/index.ts';

/** What following the fast plan costs, and how often it was asked. */
export interface Followed {
  readonly expectedTotal: number;
  readonly asked: number;
}

/**
 * The expected minutes of doing at every position what the fast plan says there first, asked anew each time, over all that
 * can come of it.
 */
export function followedFast(question: PlanQuestion): Followed {
  const problem = problemOf(question);
  const key = positionKeys(problem);
  const values = new Map<string, number>();
  const valueOf = (position: Position): number => {
    const name = key(position);
    const known = values.get(name);
    if (known !== undefined) return known;
    const { root, lookInto } = lookAhead({ ...problem, start: position.marks });
    const [first, ...others] = root.acts ?? [];
    let value = 0;
    if (first !== undefined) {
      const best = others.reduce((least, act) => (act.guess < least.guess ? act : least), first);
      if (best.outcomes === null) lookInto(best, root);
      value = best.minutes;
      for (const { probability, minutes, node } of best.outcomes ?? [])
        value += probability * (minutes + valueOf(node));
    }
    values.set(name, value);
    return value;
  };
  return { expectedTotal: valueOf(startPosition(problem)), asked: values.size };
}
