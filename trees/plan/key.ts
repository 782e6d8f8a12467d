import type { Position } from './position.ts';
import type { Problem } from './problem.ts';

/**
 * The same text for positions from which the rest costs the same. Where a test's results are certain, which of its results
 * stands matters only through the findings still possible, so that many ways lead to one position.
 */
export function positionKeys(problem: Problem): (position: Position) => string {
  const { tests, remedies, goal } = problem;
  const disturbed = new Set(goal === 'fix' ? remedies.flatMap(({ disturbs }) => disturbs) : []);
  const provesByStanding = goal === 'fix' && remedies.some(({ prove }) => prove === null);
  const merged = tests.map(
    ({ table, opens, isReference }, at) =>
      !opens && !isReference && !disturbed.has(at) && !provesByStanding && isCertain(problem, table),
  );
  if (!merged.includes(true)) return ({ marks }) => String.fromCharCode(...marks);
  return ({ marks, belief }) => {
    let key = '';
    marks.forEach((mark, at) => {
      if (merged[at] !== true) key += String.fromCharCode(mark);
    });
    for (const share of belief) key += share > 0 ? '1' : '0';
    return key;
  };
}

function isCertain({ prior }: Problem, table: Float64Array): boolean {
  const findings = prior.length;
  return table.every((value, at) => value === 0 || value === 1 || !((prior[at % findings] ?? 0) > 0));
}
