import type { FaultModel } from '../belief/index.ts';
import { firstSituation } from '../chart/index.ts';
import { checkTree, own, type Tree } from '../document/index.ts';
import { evaluate, type Evaluation } from './evaluate.ts';
import { withPath } from './carry-over.ts';
import { movesOf, type Move } from './moved.ts';
import { pathOf } from './path.ts';
import { improver } from './improve.ts';
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
  /**
   * With the exact method, minutes by which what is proposed may fall short of the best there is: the plan found, or the
   * proposed path where it takes less, against the search's lower bound on plans that end at their first remedy. Else null.
   */
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
 * saves minutes (improve.ts) and goes on as it did elsewhere; a symptom without a path, one of few findings, the goal isolate and
 * the exact method also plan from nothing. What is proposed is the best of these when all are evaluated in the world of the same fault model, as the chart
 * walks them; it is never worse than the tree as it is. For trees the checker passes, and so does what is proposed; a symptom
 * of which no test can be made at first stays without a path. Throws `unknown-symptom` where the model's tree has no such symptom.
 */
export function propose(question: ProposeQuestion): Proposal {
  const { model, symptom, goal, rate } = question;
  const { tree } = model;
  const evaluated = (one: Tree): Evaluation => evaluate({ model, tree: one, symptom, goal, rate });
  const hasPath = own(tree.symptoms, symptom)?.first !== undefined;
  const before = hasPath ? evaluated(tree) : null;
  const { policies, gapTo } = planAnew(question, hasPath);
  const planned = candidates(question, tree, policies, evaluated);
  const found =
    before === null ? planned : [...planned, bettered(question, { tree, after: before }, evaluated)];
  const best = bestOf(found, before);
  if (best === null || (before !== null && !isWorthIt(best.after, before))) {
    const after = before ?? evaluated(tree);
    return { tree, changed: false, before, after, gap: gapTo(after), moves: [] };
  }
  const moves = before === null ? [] : movesOf(before, best.after);
  return { ...best, changed: true, before, gap: gapTo(best.after), moves };
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
): { readonly policies: readonly Policy[]; readonly gapTo: (after: Evaluation) => number | null } {
  const { goal, method, isTimeUp = () => false } = question;
  const problem = startProblem(question);
  if (method === 'fast' && hasPath && goal === 'fix' && problem.findings.length > FEW)
    return { policies: [], gapTo: () => null };
  const plan = planFor(problem, method, isTimeUp);
  return {
    policies: LEAST_SHARES.map((leastShare) => plan.policy(leastShare)),
    gapTo: ({ expectedMinutes }) =>
      method === 'exact' ? Math.max(0, Math.min(plan.upper, expectedMinutes) - plan.lower) : null,
  };
}

/**
 * The policies as trees, each once. Left out is a path that would leave the tree with an error, as where another symptom goes on in
 * it and would now come to a finding that sends it on to a step it does not have.
 */
function candidates(
  { symptom }: ProposeQuestion,
  tree: Tree,
  policies: readonly Policy[],
  evaluated: (tree: Tree) => Evaluation,
): readonly Candidate[] {
  const paths = policies.flatMap((policy) => pathOf(tree, symptom, policy) ?? []);
  const each = new Map(paths.map((path) => [JSON.stringify(path), path]));
  return [...each.values()].flatMap((path) => {
    const proposed = withPath(tree, symptom, path);
    const isSound = checkTree(proposed).every(({ severity }) => severity !== 'error');
    return isSound ? [{ tree: proposed, after: evaluated(proposed) }] : [];
  });
}

/** The former path bettered as far as it goes, by rounds. */
function bettered(
  question: ProposeQuestion,
  former: Candidate,
  evaluated: (tree: Tree) => Evaluation,
): Candidate {
  const { isTimeUp = () => false } = question;
  const problem = startProblem(question);
  let best = former;
  // The first round is made in any case: a search whose time is up is no reason to propose less than the fast method does.
  for (let round = 0; round === 0 || (round < ROUNDS && !isTimeUp()); round += 1) {
    const policyOf = improver({ ...problem, tree: best.tree });
    const found = candidates(question, best.tree, LEAST_SHARES.map(policyOf), evaluated);
    const next = bestOf(found, former.after);
    if (next === null || !isWorthIt(next.after, best.after)) break;
    best = next;
  }
  return best;
}

/**
 * The one with the fewest minutes of those that end at the right finding, or mend, as often as the former path, or else as the
 * best of them: a path that asks less could buy its minutes with wrong ends, or with units passed on that could be mended.
 */
function bestOf(found: readonly Candidate[], before: Evaluation | null): Candidate | null {
  const right = before?.rightFinding ?? Math.max(...found.map(({ after }) => after.rightFinding));
  return found.reduce<Candidate | null>((best, one) => {
    if (one.after.rightFinding < right - LEAST_LOSS) return best;
    return best === null || isBetter(one.after, best.after) ? one : best;
  }, null);
}

function isBetter(one: Evaluation, other: Evaluation): boolean {
  return one.expectedMinutes < other.expectedMinutes - LEAST_GAIN;
}

/** Better by more than what the evaluations may be off by where rare states stood for others in them. */
function isWorthIt(one: Evaluation, other: Evaluation): boolean {
  const isRough = one.stoodFor + other.stoodFor > 0;
  const least = isRough ? ROUGHLY * other.expectedMinutes : LEAST_GAIN;
  return one.expectedMinutes < other.expectedMinutes - Math.max(least, LEAST_GAIN);
}

/** With more findings than these a path from nothing loses more by what it leaves out than the former path does. */
const FEW = 12;
const LEAST_GAIN = 1e-6;
const ROUGHLY = 0.002;
const LEAST_LOSS = 0.01;
