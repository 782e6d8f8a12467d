import { destination, type Tree } from '../document/index.ts';
import { isFresh, resultAt } from './marks.ts';
import { remedyOutlook, testMinutes, testOutcomes } from './outcome.ts';
import { viewAt, type Position } from './position.ts';
import type { Problem } from './problem.ts';

/** A place of a tree's path: a step, the finding it ends at, or nowhere. */
export type Spot =
  | { readonly kind: 'step'; readonly symptom: string; readonly step: string }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'nowhere' };

/** The path that a tree has for a symptom, as a plan that can be followed from any position. */
export interface FormerPath {
  /** Where the path stands: past every step whose test has a standing result, from a spot on. */
  readonly spotAt: (position: Position, from: Spot) => Spot;
  readonly first: Spot;
  /**
   * Expected minutes of a test and all that follows if it goes on by the path from a spot: to a finding (*isolate*), or through
   * its remedy, the unit passed on where that does not mend it (*fix*). Infinite where they are found to be more than `most`.
   */
  readonly minutesBy: (position: Position, test: number, from: Spot, most: number) => number;
  /** Expected minutes if all goes on by the path from a spot, ended as {@link FormerPath.minutesBy} says. */
  readonly minutesFrom: (position: Position, from: Spot) => number;
}

export function formerPath(problem: Problem): FormerPath {
  const { tree, symptom } = problem;
  const isolating = problem.goal === 'isolate';
  const testOf = new Map(problem.tests.map(({ id }, at) => [id, at]));
  const spotAt = (position: Position, from: Spot): Spot => {
    let spot = from;
    while (spot.kind === 'step') {
      const step = tree.symptoms[spot.symptom]?.steps[spot.step];
      const at = testOf.get(step?.test ?? '') ?? -1;
      const result = resultAt(position.marks[at] ?? 0);
      if (step === undefined || result < 0) return spot;
      const branch = step.then[Object.keys(tree.tests[step.test]?.results ?? {})[result] ?? ''];
      spot = branch === undefined ? { kind: 'nowhere' } : spotOf(tree, branch.go, spot.symptom);
    }
    return spot;
  };
  const leastRest = leastRestOf(problem);
  const minutesFrom = (position: Position, from: Spot, most: number): number => {
    const spot = spotAt(position, from);
    if (spot.kind === 'finding') return isolating ? 0 : remedyThen(problem, position, spot.finding);
    const test = spot.kind === 'step' ? tree.symptoms[spot.symptom]?.steps[spot.step]?.test : undefined;
    const at = nextTowards(problem, position, testOf.get(test ?? '') ?? -1, 0);
    if (at < 0) return isolating ? 0 : problem.escalate;
    return minutesBy(position, at, spot, most);
  };
  const minutesBy = (position: Position, at: number, spot: Spot, most: number): number => {
    let minutes = testMinutes(problem, viewAt(problem, position.marks), position, at);
    let rest = leastRest(position.belief);
    if (minutes + rest > most + ROUNDING) return Infinity;
    for (const { probability, minutes: leaving, position: next } of testOutcomes(problem, position, at)) {
      rest -= probability * leastRest(next.belief);
      minutes += probability * leaving;
      const left = (most - minutes - rest) / probability;
      minutes += probability * minutesFrom(next, spot, left);
      if (minutes + rest > most + ROUNDING) return Infinity;
    }
    return minutes;
  };
  return {
    spotAt,
    first: spotOf(tree, `symptom:${symptom}`, symptom),
    minutesBy,
    minutesFrom: (position, from) => minutesFrom(position, from, Infinity),
  };
}

/** Far more than sums of minutes are rounded by. */
const ROUNDING = 1e-9;

/** Minutes by a belief that no way takes less than: each unit's if its finding were known, without changeovers. */
function leastRestOf({ goal, remedies, escalate }: Problem): (belief: Float64Array) => number {
  if (goal === 'isolate') return () => 0;
  const each = remedies.map(({ minutes, leastProof, fixRate }) =>
    Math.min(escalate, minutes + leastProof + (1 - fixRate) * escalate),
  );
  return (belief) => {
    let minutes = 0;
    for (let row = 0; row < belief.length; row += 1) minutes += (belief[row] ?? 0) * (each[row] ?? escalate);
    return minutes;
  };
}

/** Looks up a `go` as written in a symptom's path. */
export function spotOf(tree: Tree, go: string, symptom: string): Spot {
  const place = destination(go, symptom);
  if (place.kind === 'finding') return place;
  const step = place.kind === 'step' ? place.step : tree.symptoms[place.symptom]?.first;
  return step === undefined ? { kind: 'nowhere' } : { kind: 'step', symptom: place.symptom, step };
}

/** A remedy, and passing the unit on where it does not mend it or cannot be done. */
function remedyThen(problem: Problem, position: Position, finding: string): number {
  const row = problem.findings.indexOf(finding);
  const outlook = remedyOutlook(problem, viewAt(problem, position.marks), position, row);
  if (outlook === null) return problem.escalate;
  const { minutes, fails } = outlook;
  return fails === null ? minutes : minutes + fails.probability * (fails.minutes + problem.escalate);
}

/** Ways to a test go through no more tests than this; only a tree gone wrong has longer ones. */
const DEEPEST = 8;

/** The test to make next on the way to a wanted one: itself, a reading it refers to, or one that opens an interlock in its way; -1 where none leads on. */
function nextTowards(problem: Problem, position: Position, wanted: number, depth: number): number {
  const test = problem.tests[wanted];
  if (test === undefined || depth > DEEPEST) return -1;
  const view = viewAt(problem, position.marks);
  if (testMinutes(problem, view, position, wanted) < Infinity) return wanted;
  const { marks } = position;
  if (test.reference >= 0 && resultAt(marks[test.reference] ?? 0) < 0)
    return nextTowards(problem, position, test.reference, depth + 1);
  for (const { watches, until } of problem.bench.locks) {
    if (!watches.some(({ axis }) => (test.needs[axis] ?? -1) >= 0)) continue;
    const waiting = until.find(
      ({ test: at, allowed }) => !isFresh(marks[at] ?? 0) && canAllow(marks[at] ?? 0, allowed),
    );
    const next = waiting === undefined ? -1 : nextTowards(problem, position, waiting.test, depth + 1);
    if (next >= 0) return next;
  }
  return -1;
}

function canAllow(mark: number, allowed: readonly boolean[]): boolean {
  const result = resultAt(mark);
  return result < 0 || allowed[result] === true;
}
