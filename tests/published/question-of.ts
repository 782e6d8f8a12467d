import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import type { Plan, PlanQuestion } from '../../trees/plan/index.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';
import { SYMPTOM } from './model-of.ts';

type Expects = NonNullable<TreeDocument['findings'][string]['expects']>;
type Needs = Readonly<Record<string, string>>;

/** A published planning problem put as a tree; what is not said is certain, free of other causes, and settled at 1. */
export interface PlanProblem {
  readonly goal: PlanQuestion['goal'];
  readonly weights: Readonly<Record<string, number>>;
  readonly tests?: Readonly<
    Record<string, { readonly results: readonly string[]; readonly minutes: number }>
  >;
  readonly expects?: Readonly<Record<string, Expects>>;
  readonly remedies?: Readonly<Record<string, { readonly minutes: number; readonly needs?: Needs }>>;
  /** The tests that prove every remedy. */
  readonly prove?: readonly string[];
  readonly defaults?: TreeDocument['defaults'];
  readonly bench?: TreeDocument['bench'];
  readonly interlocks?: TreeDocument['interlocks'];
}

/** The planner's question for a new job with this problem, the bench at its start. */
export function questionOf(problem: PlanProblem): PlanQuestion {
  const tree = treeOf({
    format: 'ohmward-tree/1',
    id: 'published',
    title: 'A published problem',
    unit: { family: 'None' },
    defaults: { reliability: 1, unlisted: 0, fixRate: 1, settled: 1, ...problem.defaults },
    bench: problem.bench ?? {},
    interlocks: problem.interlocks ?? [],
    tests: Object.fromEntries(
      Object.entries(problem.tests ?? {}).map(([id, { results, minutes }]) => [
        id,
        { title: id, ask: id, instrument: 'eye', minutes, results: titled(results) },
      ]),
    ),
    findings: Object.fromEntries(Object.keys(problem.weights).map((id) => [id, findingOf(problem, id)])),
    symptoms: { [SYMPTOM]: { title: 'Shown', weights: { ...problem.weights } } },
  });
  const starts = Object.entries(tree.bench).map(([axis, { start }]) => [axis, start]);
  return {
    model: compileFaultModel(tree, NO_HISTORY),
    goal: problem.goal,
    job: { symptom: SYMPTOM, answers: [], skips: [], remedies: [], era: 0 },
    bench: Object.fromEntries(starts),
    rate: null,
  };
}

/** The expected total with this act first; NaN where the plan does not name it. */
export function totalWith({ actions }: Plan, id: string): number {
  return actions.find((act) => act.id === id)?.expectedTotal ?? Number.NaN;
}

function findingOf(problem: PlanProblem, id: string): TreeDocument['findings'][string] {
  const { minutes, needs } = problem.remedies?.[id] ?? { minutes: 1 };
  return {
    title: id,
    because: id,
    remedy: { steps: [id], minutes, needs: { ...needs } },
    prove: [...(problem.prove ?? [])],
    expects: problem.expects?.[id] ?? {},
  };
}

function titled(results: readonly string[]): Record<string, { title: string }> {
  return Object.fromEntries(results.map((result) => [result, { title: result }]));
}
