import type { FaultModel } from '../belief/index.ts';
import { firstSituation } from '../chart/index.ts';
import { own, type Tree } from '../document/index.ts';
import { evaluate, type Evaluation } from './evaluate.ts';
import { withPath } from './carry-over.ts';
import { movesOf, type Move } from './moved.ts';
import { pathOf } from './path.ts';
import { improved } from './improve.ts';
import { planFor, type Policy } from './policy.ts';
import { problemOf, type Problem } from './problem.ts';
import type { Goal } from './question.ts';

/** A symptom of a tree whose order of tests is to be looked for anew. */
export interface ProposeQuestion {
  readonly model: FaultModel;
  readonly symptom: string;
  readonly goal: Goal;
  readonly method: 'exact' | 'fast';
  /** The shop's hourly rate, in the currency of the parts' prices; null: parts do not count. */
  readonly rate: number | null;
  /** Asked now and then: the exact search stops where it is true, and the gap says by how much it may fall short. */
  readonly isTimeUp?: () => boolean;
}

/** Another order of tests for a symptom, as a tree, beside the one it has. */
export interface Proposal {
  /** The tree with the proposed path; the tree as it is where nothing better was found. */
  readonly tree: Tree;
  readonly changed: boolean;
  /** Null where the symptom has no path yet. */
  readonly before: Evaluation | null;
  readonly after: Evaluation;
  /** Minutes by which the plan may fall short of the best there is that ends at its first remedy; null with the fast method. */
  readonly gap: number | null;
  /** What the two do otherwise, the most minutes saved first. They add up to the difference of the expected minutes. */
  readonly moves: readonly Move[];
}

/** Ways less likely than this are not planned for: tried in turn, as a path that is followed further may cost more than it tells. */
const LEAST_SHARES = [0.02, 0.005, 0.002];
/** How many times a path that was bettered is bettered again. */
const ROUNDS = 3;

/**
 * A policy written back as a tree: the plan from the symptom as a unit comes to the bench, tests until an end at one
 * finding, with stable ids and what the former path said kept (carry-over.ts). The former path is bettered where another act
 * saves minutes (improve.ts) and goes on as it did elsewhere; a symptom without a path, the goal isolate and the exact method
 * also plan from nothing. What is proposed is the best of these when all are evaluated in the world of the same fault model, as the chart
 * walks them; it is never worse than the tree as it is. Throws `unknown-symptom` where the model's tree has no such symptom.
 */
export function propose(question: ProposeQuestion): Proposal {
  const { model, symptom, goal, rate } = question;
  const { tree } = model;
  const evaluated = (one: Tree): Evaluation => evaluate({ model, tree: one, symptom, goal, rate });
  const hasPath = own(tree.symptoms, symptom)?.first !== undefined;
  const before = hasPath ? evaluated(tree) : null;
  const planned = planAnew(question, hasPath);
  let best: Candidate | null = null;
  for (const policy of planned.policies)
    best = better(question, best, candidate(tree, symptom, policy, evaluated));
  if (before !== null) {
    best = better(question, best, bettered(question, { tree, after: before }, evaluated));
  }
  const { gap } = planned;
  if (best === null || (before !== null && !isBetter(best.after, before, goal))) {
    return { tree, changed: false, before, after: before ?? evaluated(tree), gap, moves: [] };
  }
  return { ...best, changed: true, before, gap, moves: before === null ? [] : movesOf(before, best.after) };
}

/** A tree with another path, and what it costs. */
interface Candidate {
  readonly tree: Tree;
  readonly after: Evaluation;
}

function startProblem({ model, symptom, goal, rate }: ProposeQuestion): Problem {
  const { job, bench } = firstSituation(model.tree, symptom);
  return problemOf({ model, goal, job, bench, rate }, goal === 'fix');
}

function planAnew(
  question: ProposeQuestion,
  hasPath: boolean,
): { readonly policies: readonly Policy[]; readonly gap: number | null } {
  const { goal, method, isTimeUp = () => false } = question;
  if (method === 'fast' && hasPath && goal === 'fix') return { policies: [], gap: null };
  const problem = startProblem(question);
  const plan = planFor(problem, method, isTimeUp);
  return {
    policies: LEAST_SHARES.map((leastShare) => plan.policy(leastShare)),
    gap: method === 'exact' ? plan.gap : null,
  };
}

function candidate(
  tree: Tree,
  symptom: string,
  policy: Policy,
  evaluated: (tree: Tree) => Evaluation,
): Candidate | null {
  const path = pathOf(tree, symptom, policy);
  if (path === null) return null;
  const proposed = withPath(tree, symptom, path);
  return { tree: proposed, after: evaluated(proposed) };
}

/** The former path bettered as far as it goes, by rounds. */
function bettered(
  question: ProposeQuestion,
  from: Candidate,
  evaluated: (tree: Tree) => Evaluation,
): Candidate {
  const { symptom, isTimeUp = () => false } = question;
  const problem = startProblem(question);
  let best = from;
  for (let round = 0; round < ROUNDS && !isTimeUp(); round += 1) {
    const { tree } = best;
    let next: Candidate | null = null;
    for (const leastShare of LEAST_SHARES) {
      const policy = improved({ ...problem, tree }, leastShare);
      next = better(question, next, candidate(tree, symptom, policy, evaluated));
    }
    if (next === null || !isBetter(next.after, best.after, question.goal)) break;
    best = next;
  }
  return best;
}

function better({ goal }: ProposeQuestion, one: Candidate | null, other: Candidate | null): Candidate | null {
  if (one === null || other === null) return one ?? other;
  return isBetter(other.after, one.after, goal) ? other : one;
}

/** Fewer minutes; to isolate, at no loss of right findings, which a path that asks less could buy them with. */
function isBetter(one: Evaluation, other: Evaluation, goal: Goal): boolean {
  if (one.expectedMinutes >= other.expectedMinutes - LEAST_GAIN) return false;
  return goal === 'fix' || one.rightFinding >= other.rightFinding - LEAST_LOSS;
}

const LEAST_GAIN = 1e-6;
const LEAST_LOSS = 0.01;
