import type { Position } from './position.ts';
import type { Problem } from './problem.ts';

/**
 * The same text for positions from which the rest costs the same: what differs from the start. Where a test's results are
 * certain, which of its results stands matters only through the findings still possible, so that many ways lead to one position.
 */
export function positionKeys(problem: Problem): (position: Position) => string {
  const { tests, remedies, goal, start, bench, endsAtRemedy } = problem;
  // Which results stand also matters where some may be dropped, where those that are not sound make the proof, and where
  // interlocks make tests worth making that tell nothing: each but once.
  const matters =
    bench.locks.length > 0 ||
    (goal === 'fix' &&
      remedies.some(({ prove, disturbs }) => prove === null || (disturbs.length > 0 && !endsAtRemedy)));
  const merged = Uint8Array.from(start, (_, at) => {
    const test = tests[at];
    if (test === undefined || test.opens || test.isReference || matters) return 0;
    return Number(isCertain(problem, test.table));
  });
  const merges = merged.includes(1);
  return ({ marks, belief }) => {
    let key = '';
    for (let at = 0; at < marks.length; at += 1) {
      const mark = marks[at] ?? 0;
      if (mark !== start[at] && merged[at] === 0) key += String.fromCharCode(at, mark);
    }
    return merges ? `${key}/${possible(belief)}` : key;
  };
}

/** Which findings can be, sixteen to a character. */
function possible(belief: Float64Array): string {
  let key = '';
  for (let row = 0; row < belief.length; row += 16) {
    let bits = 0;
    for (let at = row; at < belief.length && at < row + 16; at += 1)
      bits = bits * 2 + ((belief[at] ?? 0) > 0 ? 1 : 0);
    key += String.fromCharCode(bits);
  }
  return key;
}

function isCertain({ prior }: Problem, table: Float64Array): boolean {
  const findings = prior.length;
  return table.every((value, at) => value === 0 || value === 1 || !((prior[at % findings] ?? 0) > 0));
}
