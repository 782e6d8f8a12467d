import { compileFaultModel, NO_HISTORY, type FaultModel, type History } from '../../trees/belief/index.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';

type Expects = NonNullable<TreeDocument['findings'][string]['expects']>;

/** A published problem put as a tree: findings with their weights, tests by their results, nothing outside the tree. */
export interface Problem {
  readonly weights: Readonly<Record<string, number>>;
  readonly tests?: Readonly<Record<string, readonly string[]>>;
  readonly expects?: Readonly<Record<string, Expects>>;
  readonly strength?: number;
  readonly history?: Partial<History>;
}

/** The symptom that every {@link modelOf} problem comes with. */
export const SYMPTOM = 'shown';

export function modelOf({ weights, tests = {}, expects = {}, strength = 10, history }: Problem): FaultModel {
  const findings = Object.keys(weights).map((id) => [id, aFinding(id, expects[id])]);
  const tree = treeOf({
    format: 'ohmward-tree/1',
    id: 'published',
    title: 'A published problem',
    unit: { family: 'None' },
    defaults: { strength, reliability: 1, unlisted: 0 },
    tests: Object.fromEntries(Object.entries(tests).map(([id, results]) => [id, aTest(id, results)])),
    findings: Object.fromEntries(findings),
    symptoms: { [SYMPTOM]: { title: 'Shown', weights: { ...weights } } },
  });
  return compileFaultModel(tree, { ...NO_HISTORY, ...history });
}

/** P(f|s) times P(r|f,t) of each result given, not normalised: what the books print beside the share. */
export function product(model: FaultModel, finding: string, given: Readonly<Record<string, string>>): number {
  const row = model.row(finding);
  let value = model.prior(SYMPTOM).probability[row] ?? Number.NaN;
  for (const [id, result] of Object.entries(given)) {
    const { results, probability } = model.test(id);
    value *= probability[row * results.length + results.indexOf(result)] ?? Number.NaN;
  }
  return value;
}

function aTest(title: string, results: readonly string[]): TreeDocument['tests'][string] {
  return {
    title,
    ask: title,
    instrument: 'eye',
    minutes: 1,
    results: Object.fromEntries(results.map((result) => [result, { title: result }])),
  };
}

function aFinding(title: string, expects: Expects = {}): TreeDocument['findings'][string] {
  return { title, because: title, remedy: { steps: [title], minutes: 1 }, expects };
}
