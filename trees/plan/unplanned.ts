import type { Tree } from '../document/index.ts';
import { spotOf, type FormerPath, type Spot } from './former-path.ts';
import { resultAt } from './marks.ts';
import { meant } from './mistaken.ts';
import type { Policy } from './policy.ts';
import type { Position } from './position.ts';
import type { Problem } from './problem.ts';

type StepSpot = Extract<Spot, { kind: 'step' }>;

/** Where a result of a test leads that a plan says nothing of: being too rare, or more likely a mistake than not. */
export interface Unplanned {
  /**
   * Where the former path led for it, gone on past what is known by then: of several steps with the test, from the one whose
   * earlier results agree best with the standing ones, the first where they agree alike. Null where the path does not have the test.
   */
  readonly kept: (position: Position, at: number, result: number) => Kept | null;
  /** The end at the finding that expects it most. */
  readonly expecting: (position: Position, at: number, result: number) => Policy;
}

export interface Kept {
  readonly policy: Policy;
  /** No result on the way there is another than the standing one. */
  readonly agrees: boolean;
}

export function unplanned(problem: Problem, path: FormerPath): Unplanned {
  const steps = stepsFrom(problem.tree, path.first);
  return {
    kept(position, at, result) {
      const step = bestAgreeing(problem, steps, position, at);
      const go = step?.gos[result];
      if (step === null || go === undefined) return null;
      const marks = position.marks.slice();
      marks[at] = result + 1;
      const place = path.spotAt({ marks, belief: position.belief }, go);
      const agrees = step.against === 0;
      if (place.kind === 'nowhere') return null;
      return place.kind === 'step'
        ? { policy: { kind: 'former', spot: place }, agrees }
        : { policy: { kind: 'finding', finding: place.finding }, agrees };
    },
    expecting: (position, at, result) => ({
      kind: 'finding',
      finding: problem.findings[mostExpecting(problem, position, at, result)] ?? '',
    }),
  };
}

/** A step of the former path, and by the place of the result where it goes on. */
interface FormerStep {
  readonly name: string;
  readonly test: string;
  readonly gos: readonly Spot[];
}

/** The steps that can be come to, each before those that it leads to. */
function stepsFrom(tree: Tree, first: Spot): readonly FormerStep[] {
  const steps = new Map<string, FormerStep | null>();
  const sorted: FormerStep[] = [];
  const visit = (spot: Spot): void => {
    const name = nameOf(spot);
    if (spot.kind !== 'step' || steps.has(name)) return;
    steps.set(name, null);
    const step = stepAt(tree, spot);
    if (step === undefined) return;
    // The last branch first, so that of steps that neither leads to the other the earlier branch's stands first.
    [...step.gos].reverse().forEach(visit);
    sorted.push(step);
  };
  visit(first);
  return sorted.reverse();
}

function stepAt(tree: Tree, spot: StepSpot): FormerStep | undefined {
  const step = tree.symptoms[spot.symptom]?.steps[spot.step];
  if (step === undefined) return undefined;
  const gos = Object.keys(tree.tests[step.test]?.results ?? {}).map((result): Spot => {
    const branch = step.then[result];
    return branch === undefined ? { kind: 'nowhere' } : spotOf(tree, branch.go, spot.symptom);
  });
  return { name: nameOf(spot), test: step.test, gos };
}

function nameOf(spot: Spot): string {
  return JSON.stringify(spot);
}

/** How a way to a step agrees with the standing results. */
interface Agreement {
  /** Results on it that are others than the standing ones. */
  readonly against: number;
  readonly agreeing: number;
}

function bestAgreeing(
  problem: Problem,
  steps: readonly FormerStep[],
  { marks }: Position,
  at: number,
): (FormerStep & Agreement) | null {
  const results = new Map(problem.tests.map(({ id }, test) => [id, resultAt(marks[test] ?? 0)]));
  const ways = new Map<string, Agreement>();
  const wanted = problem.tests[at]?.id;
  let best: (FormerStep & Agreement) | null = null;
  for (const step of steps) {
    const way = ways.get(step.name) ?? { against: 0, agreeing: 0 };
    if (step.test === wanted && isCloser(way, best)) best = { ...step, ...way };
    const standing = results.get(step.test) ?? -1;
    step.gos.forEach((go, result) => {
      const on = standing < 0 ? way : withResult(way, standing === result);
      const name = nameOf(go);
      if (isCloser(on, ways.get(name) ?? null)) ways.set(name, on);
    });
  }
  return best;
}

function withResult({ against, agreeing }: Agreement, isStanding: boolean): Agreement {
  return isStanding ? { against, agreeing: agreeing + 1 } : { against: against + 1, agreeing };
}

function isCloser(one: Agreement, other: Agreement | null): boolean {
  if (other === null || one.against !== other.against) return other === null || one.against < other.against;
  return one.agreeing > other.agreeing;
}

/**
 * The listed finding that holds most of the units that give a result for what they have; where none that can be here does, by the
 * prior, and where no unit does at all the finding that is likeliest here.
 */
function mostExpecting(problem: Problem, { belief }: Position, at: number, result: number): number {
  const expected = meant(problem, at, result);
  const tries = [belief, problem.prior].map((shares) =>
    expected.map((share, row) => share * (shares[row] ?? 0)),
  );
  for (const shares of [...tries, belief]) {
    const listed = shares.subarray(0, -1);
    const most = Math.max(...listed);
    if (most > 0) return listed.indexOf(most);
  }
  return 0;
}
