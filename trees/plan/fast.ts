import { planFrom } from './planner.ts';
import type { Plan } from './plan.ts';
import { problemOf, type Problem } from './problem.ts';
import type { PlanQuestion } from './question.ts';
import { graphOf, isClosed, trial, update, updateWhole, type Act, type Graph, type Node } from './search.ts';

/** Work that a fast plan may cost, in steps of its inner loops: a few milliseconds on a bench laptop. */
const WORK = 2_500_000;
/** Positions of larger questions cost more than in proportion: they no longer fit the processor's caches. */
const GROWTH = 1.15;

/**
 * A good plan soon: looks ahead from every act that can go first, the rest taken as remedies in order of probability
 * over cost (*fix*) or as entropy over what tests tell a minute (*isolate*), and then further along the acts that lead, for
 * as long as a fixed amount of work lasts (Heckerman, Breese & Rommelse 1995, Communications of the ACM 38(3):49-57). The
 * same question always has the same answer. Small questions are solved outright.
 */
export function planFast(question: PlanQuestion, work = WORK): Plan {
  return planFrom(lookAhead(problemOf(question), work), 'fast', ({ guess }) => guess);
}

/** The positions that a fast plan looks at. */
export function lookAhead(problem: Problem, work = WORK): Graph {
  const graph = graphOf(problem);
  const { root } = graph;
  if (root.acts === null) graph.open(root);
  for (const act of root.acts ?? []) if (act.kind === 'remedy') graph.lookInto(act, root);
  for (const act of likeliestFew(root)) graph.lookInto(act, root);
  update(root);
  for (let left = work / openingWork(problem) - 1; left > 0 && !isClosed(root);) {
    // Where all along the leading acts is closed, what may yet be better than they are is looked at.
    const opened = trial(graph, root, 'guess') || trial(graph, root, 'lower');
    left -= Math.max(opened, 0.05);
  }
  updateWhole(root);
  return graph;
}

/** The acts that promise most, looked at before any other. */
function likeliestFew({ acts }: Node): readonly Act[] {
  const unknown = (acts ?? []).filter(({ outcomes }) => outcomes === null);
  return unknown.sort((a, b) => a.guess - b.guess).slice(0, FEW);
}

const FEW = 12;

/** Steps that opening one position takes, roughly. */
function openingWork({ tests, findings, goal }: Problem): number {
  const columns = tests.reduce((sum, { results }) => sum + results, 0);
  return (columns * findings.length * (goal === 'fix' ? 8 : 4) + 200) ** GROWTH;
}
