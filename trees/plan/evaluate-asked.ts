import { aheadOf } from './evaluate-ahead.ts';
import { isFresh, NO_ANSWER } from './evaluate-answers.ts';
import type { Layout } from './evaluate-layout.ts';
import { isMarked, markAll, noMarks, type Marks } from './evaluate-marks.ts';
import { hasTried, type Spot } from './evaluate-spot.ts';
import type { Goal } from './question.ts';

/**
 * By spot: the tests by whose answer the course may yet go. To isolate that is where a step ahead asks it. To fix, also where the
 * course may come past it anew: after a remedy that is ahead and does not disturb it, or where an interlock's test will be made
 * again and may change the way here.
 */
export function askedLater(layout: Layout, goal: Goal): (spot: Spot) => Marks {
  const { steps, all } = aheadOf(layout);
  const none = noMarks(layout.tests.length);
  if (goal === 'isolate')
    return ({ place }) => (place.kind === 'step' ? (steps[place.at]?.tests ?? none) : none);
  const besides = layout.findings.map(({ disturbs }) => without(all.tests, disturbs));
  const known = new Map<string, Marks>();
  return (spot) => {
    const { kind, at } = spot.place;
    if (kind === 'remedy') return besides[at] ?? none;
    const ahead = steps[at];
    if (kind !== 'step' || ahead === undefined || mayTurnBack(layout, all.tests, spot)) return all.tests;
    const name = String.fromCharCode(at) + spot.tried;
    const had = known.get(name);
    if (had !== undefined) return had;
    const asked = ahead.tests.slice();
    for (const [finding, spared] of besides.entries())
      if (isMarked(ahead.findings, finding) && !hasTried(spot, finding)) markAll(asked, spared);
    known.set(name, asked);
    return asked;
  };
}

function without(marks: Marks, left: readonly number[]): Marks {
  const rest = marks.slice();
  for (const at of left) rest[at >> 5] = (rest[at >> 5] ?? 0) & ~(1 << (at & 31));
  return rest;
}

/** Whether an interlock's test that the way here may have gone by has not been made since the last remedy. */
function mayTurnBack(
  { tests }: Layout,
  asked: Marks,
  { answers: { tests: standing, codes } }: Spot,
): boolean {
  return standing.some(
    (test, at) => tests[test]?.opens === true && !isFresh(codes[at] ?? NO_ANSWER) && isMarked(asked, test),
  );
}
