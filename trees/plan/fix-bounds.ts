import type { Bounds } from './isolate-bounds.ts';
import { remedyMinutes, remedyOutlook } from './outcome.ts';
import { changeOver, changeoverMinutes, viewAt, type Position } from './position.ts';
import { proofOf } from './proof.ts';
import type { Problem } from './problem.ts';
import { minutesToTell } from './telling.ts';

/** How many of the likeliest findings' remedies are weighed for the next place in the order. */
const WEIGHED = 8;
/** How many places there are: fewer where a position costs more. */
const placesFor = (remedies: number): number => (remedies <= WEIGHED ? 6 : 2);

/**
 * Bounds for the goal *fix*.
 *
 * Lower: with the finding known, the unit is passed on or its remedy done (and passed on if that does not mend), whichever
 * is less: the expected cost with perfect information (Raiffa 1968, Decision Analysis). A remedy that disturbs results
 * makes the belief forget, after which less may seem to be needed: such a remedy may always be done first, and then
 * nothing is sure but the least that any end costs.
 *
 * Upper, and the base of the look-ahead: remedies alone, each time the one with the most probability of mending for its
 * cost (Kadane & Simon 1977, Annals of Statistics 5:237-255), stopping to pass the unit on where that costs least.
 *
 * Guess: the upper bound, or, if less, what perfect information leaves to do (proofs as from the start, nothing forgotten)
 * and the minutes to tell the findings apart.
 */
export function fixBounds(problem: Problem): { readonly boundsAt: (position: Position) => Bounds } {
  const { escalate, remedies, tests, endsAtRemedy } = problem;
  const costs = remedies.map(({ minutes, leastProof }) => minutes + leastProof);
  const least = Math.min(escalate, ...costs);
  const forgets = remedies.map(({ disturbs }) => !endsAtRemedy && disturbs.length > 0);
  const afterForgetting = least + Math.min(Infinity, ...costs.filter((_, row) => forgets[row]));
  const tried = Math.min(escalate, afterForgetting);
  const untried = remedies.map(({ fixRate }, row) => {
    const after = forgets[row] === true ? least : tried;
    return Math.min(tried, (costs[row] ?? 0) + (1 - fixRate) * after);
  });
  const usual = remedies.map((_, row) => usualMinutes(problem, row));
  const knowing = usual.map((minutes, row) =>
    Math.min(escalate, minutes + (1 - (remedies[row]?.fixRate ?? 0)) * escalate),
  );
  const tellingMinutes = minutesToTell(problem, STILL_OPEN);
  const places = placesFor(remedies.length);
  return {
    boundsAt(position) {
      const { belief, marks } = position;
      const unlisted = belief[belief.length - 1] ?? 0;
      let lower = unlisted * tried;
      let known = unlisted * escalate;
      for (let row = 0; row < remedies.length; row += 1) {
        const share = belief[row] ?? 0;
        const wasTried = marks[tests.length + row] === 1;
        lower += share * (wasTried ? tried : (untried[row] ?? 0));
        known += share * (wasTried ? escalate : (knowing[row] ?? 0));
      }
      const upper = remediesAlone(problem, usual, position, places);
      if (lower > upper) lower = upper;
      const guess = Math.min(upper, Math.max(lower, known + tellingMinutes(position)));
      return { lower, upper, guess, known: Math.min(known, guess) };
    },
  };
}

/** A remedy's changeovers, work, parts and proof as the unit stands at the start. */
function usualMinutes(problem: Problem, row: number): number {
  const { start, remedies } = problem;
  const remedy = remedies[row];
  if (remedy === undefined) return Infinity;
  const after = start.slice();
  const changeovers = changeoverMinutes(problem, viewAt(problem, start), start, remedy.needs);
  changeOver(problem, after, remedy.needs);
  for (const at of remedy.disturbs) after[at] = 0;
  const proof = proofOf(problem, row, start, after);
  return (changeovers === Infinity ? 0 : changeovers) + remedy.minutes + proof.minutes;
}

/** Bits that may be open when remedies are tried: telling all would cost more than it saves. */
const STILL_OPEN = 0.2;

/** Expected minutes of remedies alone, in order of probability over cost, the unit passed on where that is less. */
function remediesAlone(
  problem: Problem,
  usual: readonly number[],
  position: Position,
  places: number,
): number {
  const { escalate } = problem;
  if (places === 0) return escalate;
  const view = viewAt(problem, position.marks);
  let best = -1;
  let bestRatio = 0;
  for (const row of likeliest(position.belief)) {
    const minutes = remedyMinutes(problem, view, position, row);
    const fixRate = minutes === Infinity ? 0 : (problem.remedies[row]?.fixRate ?? 0);
    const ratio = ((position.belief[row] ?? 0) * fixRate) / (usual[row] ?? Infinity);
    if (ratio > bestRatio) {
      best = row;
      bestRatio = ratio;
    }
  }
  const outlook = best < 0 ? null : remedyOutlook(problem, view, position, best);
  if (outlook === null || outlook.minutes >= escalate) return escalate;
  const { fails } = outlook;
  // Nothing is left to expect, or what is left is in its minutes.
  if (fails === null) return Math.min(escalate, outlook.minutes);
  const rest = fails.minutes + remediesAlone(problem, usual, fails.position, places - 1);
  return Math.min(escalate, outlook.minutes + fails.probability * rest);
}

/** The likeliest findings but `unlisted`, at most {@link WEIGHED}. */
function likeliest(belief: Float64Array): readonly number[] {
  const listed = belief.length - 1;
  const rows: number[] = [];
  for (let row = 0; row < listed; row += 1) {
    const share = belief[row] ?? 0;
    if (share <= 0) continue;
    if (rows.length === WEIGHED && share <= (belief[rows[WEIGHED - 1] ?? 0] ?? 0)) continue;
    let at = rows.length < WEIGHED ? rows.length : WEIGHED - 1;
    while (at > 0 && (belief[rows[at - 1] ?? 0] ?? 0) < share) {
      rows[at] = rows[at - 1] ?? 0;
      at -= 1;
    }
    rows[at] = row;
  }
  return rows;
}
