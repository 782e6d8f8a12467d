import { formerPath } from './former-path.ts';
import { moves } from './isolate-end.ts';
import type { Plan, PlannedAct } from './plan.ts';
import type { Position } from './position.ts';
import { problemOf, type Problem } from './problem.ts';
import type { PlanQuestion } from './question.ts';
import { graphOf, isClosed, trial, update, updateAct, updateWhole, type Act, type Graph } from './search.ts';

/** A search that can be run a bit at a time, and asked for the best plan so far at any moment. */
export interface Search {
  /** Opens at most so many positions more. */
  readonly run: (positions: number) => void;
  /** The plan is the best there is, and so is what is said of every act that can go first. */
  readonly solved: boolean;
  /** It keeps as many positions as it may, and goes no further. */
  readonly full: boolean;
  /** The best plan so far, with the minutes by which it may fall short. */
  readonly plan: () => Plan;
}

/** Positions kept at most: some two and a half gigabytes on a large tree. A search that would need more stops there, and says its gap. */
const MOST_POSITIONS = 600_000;

/** Starts the exact search: dynamic programming over evidence, remedies tried and bench state, best first, with bounds. */
export function startSearch(question: PlanQuestion): Search {
  const problem = problemOf(question);
  const graph = graphOf(problem, pathInHand(problem));
  if (graph.root.acts === null) graph.open(graph.root);
  for (const act of graph.root.acts ?? []) if (act.outcomes === null) graph.lookInto(act, graph.root);
  let solved = false;
  const isFull = (): boolean => graph.size() >= MOST_POSITIONS;
  return {
    run(positions) {
      let left = positions;
      while (left > 0 && !solved && !isFull()) {
        const next = nextTrial(graph);
        if (next === null) solved = true;
        else left -= Math.max(next(), 0.01);
      }
      if (nextTrial(graph) === null) solved = true;
    },
    get solved() {
      return solved;
    },
    get full() {
      return isFull();
    },
    plan() {
      updateWhole(graph.root);
      return planFrom(graph, 'exact', ({ upper }) => upper);
    },
  };
}

/** Going on by the tree's own path is a plan that is there from the start, where there is a path and the unit is to be fixed. */
function pathInHand(problem: Problem): ((position: Position) => number) | undefined {
  if (problem.goal === 'isolate' || problem.tree.symptoms[problem.symptom]?.first === undefined)
    return undefined;
  const path = formerPath(problem);
  return (position) => path.minutesFrom(position, path.first);
}

/** The least expected total there is, and that of every act first; or, stopped after so many positions, its gap. */
export function planExact(question: PlanQuestion, { expansions = Infinity } = {}): Plan {
  const search = startSearch(question);
  search.run(expansions);
  return search.plan();
}

/** First the best plan, then what every other act first would come to; null where all is known. */
function nextTrial(graph: Graph): (() => number) | null {
  const { root } = graph;
  if (!isClosed(root)) return () => trial(graph, root, 'lower');
  const open = (root.acts ?? []).find((act) => act.outcomes === null || !isClosed(act));
  if (open === undefined) return null;
  return () => {
    if (open.outcomes === null) {
      graph.lookInto(open, root);
      return 0;
    }
    const widest = open.outcomes.reduce((most, one) => (gapOf(one) > gapOf(most) ? one : most));
    const opened = trial(graph, widest.node, 'lower');
    updateAct(open);
    update(root);
    return opened;
  };
}

function gapOf({
  probability,
  node,
}: {
  probability: number;
  node: { lower: number; upper: number };
}): number {
  return isClosed(node) ? 0 : probability * (node.upper - node.lower);
}

/** The plan that a graph holds now, an act's total taken as `total` says. */
export function planFrom(graph: Graph, method: Plan['method'], total: (act: Act) => number): Plan {
  const { root, problem } = graph;
  const actions = (root.acts ?? [])
    .map((act) => ({ act: plannedAct(problem, act, total(act)), rank: rankOf(problem, root, act) }))
    .sort((a, b) => inNano(a.act.expectedTotal) - inNano(b.act.expectedTotal) || a.rank - b.rank)
    .map(({ act }) => act)
    .reduce<PlannedAct[]>((sorted, act) => {
      sorted.push(likeBefore(sorted.at(-1), act));
      return sorted;
    }, []);
  const best = actions[0]?.expectedTotal ?? 0;
  const expectedTotal = method === 'exact' ? Math.min(best, root.upper) : best;
  const lowerBound = Math.min(root.lower, expectedTotal);
  return { actions, expectedTotal, lowerBound, gap: expectedTotal - lowerBound, method };
}

/** An act whose total is that of the one before it but for rounding is given just that total, so that they ascend. */
function likeBefore(before: PlannedAct | undefined, act: PlannedAct): PlannedAct {
  const isSame = before !== undefined && inNano(before.expectedTotal) === inNano(act.expectedTotal);
  return isSame ? { ...act, expectedTotal: before.expectedTotal } : act;
}

/** Totals closer than this are the same but for rounding. */
function inNano(minutes: number): number {
  return Math.round(minutes * 1e9);
}

/** Among acts of the same total, tests that tell something come first, and those that tell nothing last. */
function rankOf({ tests }: Problem, { belief }: Graph['root'], { kind, at }: Act): number {
  if (kind === 'remedy') return 1;
  if (kind === 'pass-on') return 2;
  const test = tests[at];
  return test !== undefined && moves(test, belief) ? 0 : 3;
}

/** An act as those who ask are told of it. */
export function plannedAct({ tests, remedies }: Problem, act: Act, expectedTotal: number): PlannedAct {
  const { kind, at, minutes } = act;
  const id = kind === 'test' ? tests[at]?.id : kind === 'remedy' ? remedies[at]?.finding : 'pass-on';
  return { kind, id: id ?? '', minutes, expectedTotal };
}
