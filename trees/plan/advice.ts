import { lookAhead } from './fast.ts';
import { isSettled } from './isolate-end.ts';
import { testOutcomes } from './outcome.ts';
import { planFrom, plannedAct } from './planner.ts';
import type { Plan, PlannedAct } from './plan.ts';
import { problemOf, type Problem } from './problem.ts';
import type { PlanQuestion } from './question.ts';
import { isClosed, trial, updateAct, type Act, type Graph } from './search.ts';

/** What the tree would have done next: a test (its own, or one on the way to it), or a finding's remedy. */
export interface TreeNext {
  readonly kind: 'test' | 'remedy';
  readonly id: string;
}

/** What the planner says at one standing of a job, set against the tree's own next act. */
export interface Advice {
  readonly plan: Plan;
  readonly best: Reasoned | null;
  /** The tree's next act, with the total it would come to if all goes on by the planner after it; null where it has none. */
  readonly byTree: Reasoned | null;
  /** Minutes that the best act is expected to save against the tree's; 0 where they are the same, or the tree has none. */
  readonly saves: number;
  /** The saving is more than the look-ahead's own roughness: at least half a minute, and three in a hundred of the rest. */
  readonly worthSaying: boolean;
}

/** An act and the numbers that speak for it. */
export type Reasoned = PlannedAct & { readonly why: Why };

export type Why =
  | {
      readonly kind: 'test';
      /** How likely its results are, likeliest first. */
      readonly shares: readonly number[];
      /** The likeliest finding and the next one that it would show otherwise, with their probabilities; null where it tells no two apart. */
      readonly tells: readonly [Held, Held] | null;
      /** The chance that one finding is settled after it. */
      readonly settles: number;
    }
  | {
      readonly kind: 'remedy';
      readonly probability: number;
      /** The chance that it mends the unit: the finding's probability times its fix rate. */
      readonly mends: number;
    }
  | { readonly kind: 'pass-on'; readonly likeliest: Held };

export interface Held {
  readonly finding: string;
  readonly probability: number;
}

const LEAST_MINUTES = 0.5;
const LEAST_SHARE = 0.03;

/**
 * What to do next and why, for the goal *fix*, and what that saves against the tree's next act: the difference of the two
 * expected totals by the fast plan, what a remedy disturbs kept in mind. Stopping to test and trying a remedy follows from their cost alone.
 */
export function advise(question: Omit<PlanQuestion, 'goal'>, next: TreeNext | null): Advice {
  const problem = keptInMind(problemOf({ ...question, goal: 'fix' }));
  const graph = lookAhead(problem);
  const treeAct = next === null ? null : actOf(graph, next);
  if (treeAct !== null) judgeAlike(graph, treeAct);
  const plan = planFrom(graph, 'fast', ({ guess }) => guess);
  const best = reasonedOf(graph, plan.actions[0]);
  const byTree = next === null ? null : treeTotal(graph, plan, next, treeAct);
  const isSame = best !== null && byTree !== null && best.kind === byTree.kind && best.id === byTree.id;
  const saves = best === null || byTree === null || isSame ? 0 : byTree.expectedTotal - best.expectedTotal;
  return {
    plan,
    best,
    byTree,
    saves: Math.max(0, saves),
    worthSaying: saves >= Math.max(LEAST_MINUTES, LEAST_SHARE * (byTree?.expectedTotal ?? 0)),
  };
}

/**
 * A unit that a remedy did not mend still has the fault that gave the results which the remedy disturbs: they are planned
 * with as if they stood, or a remedy that hardly mends anything would be worth its minutes for making a bad reading forgotten.
 */
function keptInMind(problem: Problem): Problem {
  return { ...problem, remedies: problem.remedies.map((remedy) => ({ ...remedy, disturbs: [] })) };
}

function actOf({ root, problem }: Graph, { kind, id }: TreeNext): Act | null {
  return (root.acts ?? []).find((act) => act.kind === kind && idOf(problem, act) === id) ?? null;
}

function idOf(problem: Problem, act: Act): string {
  return plannedAct(problem, act, 0).id;
}

/** How many acts that come to lead are looked into as far as the tree's. */
const LEADERS = 4;

/** Looks as far below the tree's act as below those that lead before it, so that none is judged by less than another. */
function judgeAlike(graph: Graph, treeAct: Act): void {
  const judged = new Set<Act>();
  for (let act: Act | null = treeAct; act !== null && judged.size <= LEADERS; act = leader(graph)) {
    if (judged.has(act)) return;
    judged.add(act);
    lookFurther(graph, act);
  }
}

function leader({ root }: Graph): Act | null {
  return (root.acts ?? []).reduce<Act | null>(
    (best, act) => (best === null || act.guess < best.guess ? act : best),
    null,
  );
}

/** Positions looked at below an act. */
const FURTHER = 60;

function lookFurther(graph: Graph, act: Act): void {
  if (act.outcomes === null) graph.lookInto(act, graph.root);
  for (let turn = 0; turn < FURTHER; turn += 1) {
    const open = (act.outcomes ?? []).filter(({ node }) => !isClosed(node));
    const [widest] = open.sort((a, b) => b.probability - a.probability);
    if (widest === undefined) break;
    const next = open[turn % open.length] ?? widest;
    trial(graph, next.node, 'guess');
    updateAct(act);
  }
}

/** The tree's act where the planner has it among its own; else it tells nothing, and only its minutes are added. */
function treeTotal({ problem, root }: Graph, plan: Plan, next: TreeNext, act: Act | null): Reasoned | null {
  if (act !== null) return { ...plannedAct(problem, act, act.guess), why: whyOf(problem, root, act) };
  const at = problem.tests.findIndex(({ id }) => id === next.id);
  const test = next.kind === 'test' ? problem.tests[at] : undefined;
  if (test === undefined) return null;
  const { minutes } = test;
  const why: Why = { kind: 'test', shares: [], tells: null, settles: 0 };
  return { kind: 'test', id: next.id, minutes, expectedTotal: minutes + plan.expectedTotal, why };
}

function reasonedOf(graph: Graph, planned: PlannedAct | undefined): Reasoned | null {
  if (planned === undefined) return null;
  const { root, problem } = graph;
  const act = (root.acts ?? []).find((one) => one.kind === planned.kind && idOf(problem, one) === planned.id);
  return act === undefined ? null : { ...planned, why: whyOf(problem, root, act) };
}

function whyOf(problem: Problem, root: Graph['root'], act: Act): Why {
  const { belief } = root;
  switch (act.kind) {
    case 'test': {
      const outcomes = testOutcomes(problem, root, act.at);
      return {
        kind: 'test',
        shares: outcomes.map(({ probability }) => probability).sort((a, b) => b - a),
        tells: toldApart(problem, belief, act.at),
        settles: outcomes.reduce(
          (sum, { probability, position }) => sum + (isSettled(problem, position.belief) ? probability : 0),
          0,
        ),
      };
    }
    case 'remedy': {
      const probability = belief[act.at] ?? 0;
      return {
        kind: 'remedy',
        probability,
        mends: probability * (problem.remedies[act.at]?.fixRate ?? 0),
      };
    }
    case 'pass-on':
      return { kind: 'pass-on', likeliest: held(problem, belief, ranked(belief)[0] ?? 0) };
  }
}

function held({ findings }: Problem, belief: Float64Array, row: number): Held {
  return { finding: findings[row] ?? '', probability: belief[row] ?? 0 };
}

/** Findings by their probability, the likeliest first. */
function ranked(belief: Float64Array): readonly number[] {
  return [...belief.keys()].sort((a, b) => (belief[b] ?? 0) - (belief[a] ?? 0));
}

/** The likeliest listed finding, and the likeliest other whose likeliest result of the test is another. */
function toldApart(problem: Problem, belief: Float64Array, at: number): readonly [Held, Held] | null {
  const listed = ranked(belief).filter((row) => row < belief.length - 1 && (belief[row] ?? 0) > 0);
  const [first, ...others] = listed;
  if (first === undefined) return null;
  const shown = likeliestResult(problem, first, at);
  const other = others.find((row) => likeliestResult(problem, row, at) !== shown);
  return other === undefined ? null : [held(problem, belief, first), held(problem, belief, other)];
}

function likeliestResult({ tests, findings }: Problem, row: number, at: number): number {
  const { table, results } = tests[at] ?? { table: new Float64Array(), results: 0 };
  let best = 0;
  for (let result = 1; result < results; result += 1)
    if ((table[result * findings.length + row] ?? 0) > (table[best * findings.length + row] ?? 0))
      best = result;
  return best;
}
