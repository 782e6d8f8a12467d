import { askedLater } from './evaluate-asked.ts';
import { alikeResults, OPENS, PROVES, ROUTES, type Alike } from './evaluate-alike.ts';
import { codeOf, isFresh, NO_ANSWERS, resultOf } from './evaluate-answers.ts';
import { isMarked } from './evaluate-marks.ts';
import type { Walking } from './evaluate-leg.ts';
import type { Spot } from './evaluate-spot.ts';

/**
 * A spot without what cannot matter any more, so that ways that come to the same thing are one: answers that no step,
 * interlock, reference or proof can use are dropped, results that lead to the same are made the same, and it is forgotten
 * when an answer was given unless an interlock or a proof asks.
 */
export function forgetter(walking: Walking): (spot: Spot) => Spot {
  const { layout, goal } = walking;
  const { tests, findings } = layout;
  // A finding that names no proof takes the answers for it, in the order they were given.
  const keepsAll = goal === 'fix' && findings.some(({ prove }) => prove.length === 0);
  const askedFrom = askedLater(layout, goal);
  const alike: Alike = walking.tellsApart === true ? (_, result) => result : alikeResults(layout);
  return (spot) => {
    if (isOver(walking, spot)) return over(spot);
    if (keepsAll) return spot;
    const asked = askedFrom(spot);
    const kept: { tests: number[]; codes: number[] } = { tests: [], codes: [] };
    for (const [at, code] of spot.answers.codes.entries()) {
      const test = spot.answers.tests[at] ?? 0;
      const fresh = isFresh(code);
      const asks = isMarked(asked, test);
      const opens = fresh && tests[test]?.opens === true;
      const proves = fresh && spot.place.kind === 'proof' && spot.prove.includes(test);
      if (!asks && !opens && !proves && tests[test]?.isReference !== true) continue;
      const result = alike(
        test,
        resultOf(code),
        (asks ? ROUTES : 0) | (opens ? OPENS : 0) | (proves ? PROVES : 0),
      );
      kept.tests.push(test);
      kept.codes.push(codeOf(result, opens || proves));
    }
    return { ...spot, answers: kept };
  };
}

/** Whether there is nothing left to do from here. */
function isOver({ goal, ways }: Walking, spot: Spot): boolean {
  const { kind } = spot.place;
  if (kind !== 'adrift' && kind !== 'mended' && !(kind === 'finding' && goal === 'isolate')) return false;
  const { changes, end } = ways.towards(spot, { kind: 'none' });
  return changes.length === 0 && end.kind === 'there';
}

function over({ place }: Spot): Spot {
  const forgotten = { answers: NO_ANSWERS, tried: '', passed: '', prove: [], unsound: [] };
  return { ...forgotten, place, bench: 0, isOver: true };
}
