import { lookAhead } from './fast.ts';
import { formerPath, type Spot } from './former-path.ts';
import { positionKeys } from './key.ts';
import { fitEnds, isExpected } from './mistaken.ts';
import { testMinutes, testOutcomes } from './outcome.ts';
import { viewAt, type Position } from './position.ts';
import type { Problem } from './problem.ts';
import { graphOf, isClosed, trial, updateWhole, type Act, type Graph, type Node } from './search.ts';
import { unplanned, type Unplanned } from './unplanned.ts';

/** What a plan does at a position: a test with what follows each result, or an end at a finding. */
export type Policy =
  | { readonly kind: 'finding'; readonly finding: string }
  /** On by the former path, from this place of it. */
  | { readonly kind: 'former'; readonly spot: Extract<Spot, { kind: 'step' }> }
  | {
      readonly kind: 'test';
      readonly test: string;
      /** For every result of the test, in its order: how likely it is here, and what follows. */
      readonly branches: readonly { readonly probability: number; readonly then: Policy }[];
    };

/** Plans that a tree can hold, from one search. */
export interface PlansFound {
  /**
   * Tests, one at least if any can be made, until an end at one finding. A result less likely than `leastShare` of all units, or one that
   * is more likely a mistake than not, leads where the former path led for it; one too rare of which that says nothing ends at the
   * finding that expects it most.
   */
  readonly policy: (leastShare: number) => Policy;
  /** Expected minutes of the best plan that ends at its first remedy lie between these two. */
  readonly lower: number;
  readonly upper: number;
}

/** Looks for plans that a tree can hold. The exact search stops where `isTimeUp` is true, asked now and then. */
export function planFor(problem: Problem, method: 'exact' | 'fast', isTimeUp: () => boolean): PlansFound {
  const graph = method === 'exact' ? searched(problem, isTimeUp) : lookAhead(problem);
  const key = positionKeys(problem);
  const former = unplanned(problem, formerPath(problem));
  const chosen = new Map<string, ReturnType<typeof bestAct>>();
  const choose = (position: Position): ReturnType<typeof bestAct> => {
    const name = key(position);
    const known = chosen.get(name) ?? bestAct(problem, graph, position);
    chosen.set(name, known);
    return known;
  };
  const at = (position: Position, share: number, leastShare: number): Policy => {
    const { act, from } = choose(position);
    if (act?.kind === 'remedy') return { kind: 'finding', finding: problem.findings[act.at] ?? '' };
    if (act?.kind !== 'test') return likeliest(problem, position);
    if (act.outcomes === null) from.lookInto(act, from.root);
    const asked = { problem, former, position, at: act.at, least: leastShare / share };
    return testPolicy(asked, act.outcomes ?? [], ({ node, probability }) =>
      at(node, share * probability, leastShare),
    );
  };
  const start = (leastShare: number): Policy => {
    const policy = at(graph.root, 1, leastShare);
    if (policy.kind !== 'finding') return policy;
    const test = opening(problem, graph);
    const outcomes = testOutcomes(problem, graph.root, test);
    if (outcomes.length === 0) return policy;
    const asked = { problem, former, position: graph.root, at: test, least: leastShare };
    return testPolicy(asked, outcomes, ({ position, probability }) => at(position, probability, leastShare));
  };
  return {
    policy: start,
    lower: graph.root.lower,
    upper: graph.root.upper,
  };
}

/** A search takes this many trials between one question whether its time is up and the next. */
const TRIALS = 200;
const MOST_POSITIONS = 400_000;

function searched(problem: Problem, isTimeUp: () => boolean): Graph {
  const graph = graphOf(problem);
  if (graph.root.acts === null) graph.open(graph.root);
  while (!isClosed(graph.root) && !isTimeUp() && graph.size() < MOST_POSITIONS)
    for (let turn = 0; turn < TRIALS && !isClosed(graph.root); turn += 1) trial(graph, graph.root, 'lower');
  return graph;
}

/** The best act at a position: as the search has it where it has closed it, else by looking ahead from there. */
function bestAct(
  problem: Problem,
  graph: Graph,
  position: Position,
): { readonly act: Act | null; readonly from: Graph } {
  const node = graph.find(position);
  if (node !== null && isClosed(node)) {
    if (node.acts === null) graph.open(node);
    for (const act of node.acts ?? [])
      if (act.outcomes === null && act.lower <= node.upper) graph.lookInto(act, node);
    updateWhole(node);
    return { act: least(problem, node, ({ upper }) => upper), from: graph };
  }
  const ahead = lookAhead({ ...problem, start: position.marks });
  return { act: least(problem, ahead.root, ({ guess }) => guess), from: ahead };
}

/** No remedy of a finding at which a path may not end, while anything else can be done. */
function least(problem: Problem, node: Node, figure: (act: Act) => number): Act | null {
  const acts = node.acts ?? [];
  const ends = fitEnds(problem, node);
  const fit = acts.filter(({ kind, at }) => kind !== 'remedy' || ends.has(at));
  return (fit.length > 0 ? fit : acts).reduce<Act | null>(
    (best, act) => (best === null || figure(act) < figure(best) ? act : best),
    null,
  );
}

/** The test to begin with where the plan would make none, as a path cannot but begin with one; -1 where none can be made. */
function opening(problem: Problem, { root, lookInto }: Graph): number {
  const tests = (root.acts ?? []).filter(({ kind }) => kind === 'test');
  for (const act of tests) if (act.outcomes === null) lookInto(act, root);
  const promising = [...tests].sort((a, b) => a.guess - b.guess)[0];
  if (promising !== undefined) return promising.at;
  const view = viewAt(problem, root.marks);
  const minutes = problem.tests.map((_, at) => testMinutes(problem, view, root, at));
  const least = Math.min(...minutes);
  return least < Infinity ? minutes.indexOf(least) : -1;
}

/** A test that is to be made at a position. */
interface Asked {
  readonly problem: Problem;
  readonly former: Unplanned;
  readonly position: Position;
  readonly at: number;
  /** Results less likely than this are too rare to be planned for. */
  readonly least: number;
}

function testPolicy<Possible extends { readonly result: number; readonly probability: number }>(
  { problem, former, position, at, least }: Asked,
  outcomes: readonly Possible[],
  follow: (outcome: Possible) => Policy,
): Policy {
  const test = problem.tests[at];
  const branches = Array.from({ length: test?.results ?? 0 }, (_, result) => {
    const outcome = outcomes.find((one) => one.result === result);
    const probability = outcome?.probability ?? 0;
    const isRare = outcome === undefined || probability < least;
    if (!isRare && isExpected(problem, position, at, result)) return { probability, then: follow(outcome) };
    const kept = former.kept(position, at, result);
    if (kept !== null) return { probability, then: kept.policy };
    return { probability, then: isRare ? former.expecting(position, at, result) : follow(outcome) };
  });
  return { kind: 'test', test: test?.id ?? '', branches };
}

/** The end at the listed finding that holds most. A path has nowhere else to end. */
export function likeliest({ findings }: Problem, { belief }: Position): Policy {
  let best = 0;
  for (let row = 1; row < belief.length - 1; row += 1)
    if ((belief[row] ?? 0) > (belief[best] ?? 0)) best = row;
  return { kind: 'finding', finding: findings[best] ?? '' };
}
