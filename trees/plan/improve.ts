import { formerPath, type FormerPath, type Spot } from './former-path.ts';
import { moves } from './isolate-end.ts';
import { resultAt } from './marks.ts';
import { fitEnds, isExpected } from './mistaken.ts';
import { remedyOutlook, testOutcomes } from './outcome.ts';
import { likeliest, type Policy } from './policy.ts';
import { startPosition, viewAt, type Position } from './position.ts';
import type { Problem } from './problem.ts';
import { unplanned, type Unplanned } from './unplanned.ts';

/** An act is worth another order where it saves this much of an average unit's minutes. */
const LEAST_GAIN = 0.005;

/** A position that the bettered path comes to, with what is done there once that is known. */
interface Way {
  readonly position: Position;
  readonly spot: Spot;
  /** Of all units, those that come here. */
  readonly share: number;
  choice: Choice | null;
  next: ReadonlyMap<number, Way>;
}

/**
 * The former path, bettered: at each position that at least `leastShare` of the units come to, the act with the least
 * expected minutes if all goes on by the former path after it, which is the path's own unless another saves something;
 * elsewhere, and by results that are more likely a mistake than not, on where the former path led (unplanned.ts). Never more expected minutes than the path itself has, counted to its first remedy (rollout of a base
 * policy: Bertsekas & Castanon 1999, Journal of Heuristics 5:89-108; for sequences of tests Tu & Pattipati 2003, IEEE
 * Trans. SMC-A 33:86-99; both cited from memory). What is worked out for one `leastShare` serves the next.
 */
export function improver(problem: Problem): (leastShare: number) => Policy {
  const path = formerPath(problem);
  const former = unplanned(problem, path);
  const wayAt = (position: Position, from: Spot, share: number): Way => ({
    position,
    spot: path.spotAt(position, from),
    share,
    choice: null,
    next: new Map(),
  });
  const choose = (way: Way): Choice => {
    if (way.choice !== null) return way.choice;
    const choice = bestOf(problem, path, way);
    const { spot, share } = way;
    way.choice = choice;
    if (choice.kind === 'test')
      way.next = new Map(
        testOutcomes(problem, way.position, choice.at).map(({ result, probability, position }) => [
          result,
          wayAt(position, spot, share * probability),
        ]),
      );
    return choice;
  };
  const policyOf = (way: Way, leastShare: number): Policy => {
    const { position, spot, share } = way;
    if (spot.kind !== 'step') return endAt(problem, position, spot);
    const choice = choose(way);
    if (choice.kind === 'former') return { kind: 'former', spot };
    if (choice.kind === 'remedy') return { kind: 'finding', finding: problem.findings[choice.at] ?? '' };
    const branches = Array.from({ length: problem.tests[choice.at]?.results ?? 0 }, (_, result) => {
      const next = way.next.get(result);
      const probability = next === undefined ? 0 : next.share / share;
      const isPlanned = next !== undefined && next.share >= leastShare;
      if (isPlanned && isExpected(problem, position, choice.at, result))
        return { probability, then: policyOf(next, leastShare) };
      return { probability, then: onwards({ problem, path, former }, way, choice.at, result) };
    });
    return { kind: 'test', test: problem.tests[choice.at]?.id ?? '', branches };
  };
  const root = wayAt(startPosition(problem), path.first, 1);
  return (leastShare) => policyOf(root, leastShare);
}

/** Where the path ends; at the likeliest finding where it leads nowhere, which a checked tree's never does. */
function endAt(problem: Problem, position: Position, spot: Exclude<Spot, { kind: 'step' }>): Policy {
  return spot.kind === 'finding' ? { kind: 'finding', finding: spot.finding } : likeliest(problem, position);
}

/** A test or remedy by its number; the former path where nothing can be done at once. */
type Choice = { readonly kind: 'test' | 'remedy'; readonly at: number } | { readonly kind: 'former' };

/** The path's own next test, or the act that saves most against it. */
function bestOf(problem: Problem, path: FormerPath, { position, spot, share }: Way): Choice {
  const view = viewAt(problem, position.marks);
  const own = ownTest(problem, spot);
  const gain = LEAST_GAIN / share;
  let choice: Choice = { kind: 'former' };
  let best = Infinity;
  if (problem.goal === 'fix')
    fitEnds(problem, position).forEach((at) => {
      const minutes = (remedyOutlook(problem, view, position, at)?.minutes ?? Infinity) + gain;
      if (minutes >= best) return;
      choice = { kind: 'remedy', at };
      best = minutes;
    });
  for (const at of testsFrom(problem, position, own)) {
    const least = best - (at === own ? 0 : gain);
    const minutes = path.minutesBy(position, at, spot, least);
    if (minutes === Infinity || minutes > least || (minutes === least && at !== own)) continue;
    choice = { kind: 'test', at };
    best = minutes + (at === own ? 0 : gain);
  }
  return choice;
}

/** Tests that may be weighed: the path's own first, as others are measured by it. */
function testsFrom(problem: Problem, { marks, belief }: Position, own: number): readonly number[] {
  const others = problem.tests.flatMap((test, at) =>
    at !== own && resultAt(marks[at] ?? 0) < 0 && (test.opens || moves(test, belief)) ? [at] : [],
  );
  return own < 0 || resultAt(marks[own] ?? 0) >= 0 ? others : [own, ...others];
}

function ownTest({ tree, tests }: Problem, spot: Spot): number {
  const test = spot.kind === 'step' ? tree.symptoms[spot.symptom]?.steps[spot.step]?.test : undefined;
  return tests.findIndex(({ id }) => id === test);
}

interface Former {
  readonly problem: Problem;
  readonly path: FormerPath;
  readonly former: Unplanned;
}

/**
 * Where a result that is not planned for goes on: where the path led for it, from where the path stands if the test is next there or
 * it has it on no way that agrees with what is known.
 */
function onwards({ problem, path, former }: Former, way: Way, at: number, result: number): Policy {
  const { position, spot } = way;
  const kept = ownTest(problem, spot) === at ? null : former.kept(position, at, result);
  if (kept?.agrees === true) return kept.policy;
  const marks = position.marks.slice();
  marks[at] = result + 1;
  const place = path.spotAt({ marks, belief: position.belief }, spot);
  return place.kind === 'step' ? { kind: 'former', spot: place } : endAt(problem, position, place);
}
