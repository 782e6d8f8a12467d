import type { FaultModel, TestModel } from '../belief/index.ts';
import { own } from '../document/index.ts';
import type { EvaluateQuestion } from './evaluate.ts';
import type { Layout } from './evaluate-layout.ts';
import type { Walking } from './evaluate-leg.ts';
import { walksOf } from './evaluate-walks.ts';

/** What an evaluation goes by, laid out for arithmetic. */
export interface World extends Walking {
  readonly model: FaultModel;
  /** P(f|s) in the model's order, and last, at {@link mended}, the share of mended units: none at first. */
  readonly prior: Float64Array;
  /** The row of the units that have been mended, after those of the findings. */
  readonly mended: number;
  /** By row P(r|f,t) of a test's result; the mended units' entry is the caller's to set, each time. */
  readonly shares: (test: number, result: number) => Float64Array;
  /** Minutes that a remedy's work and its parts count for. */
  readonly remedyMinutes: (finding: string) => number;
}

export function worldOf({ model, tree = model.tree, symptom, goal, rate }: EvaluateQuestion): World {
  const { probability } = model.prior(symptom);
  const prior = new Float64Array(probability.length + 1);
  prior.set(probability);
  const { layout, ways } = walksOf(tree, symptom);
  const remedyMinutes = (finding: string): number => {
    const { minutes, parts } = own(tree.findings, finding)?.remedy ?? { minutes: 0, parts: [] };
    const price = parts.reduce((sum, part) => sum + part.price, 0);
    return minutes + (rate === null ? 0 : (price * 60) / rate);
  };
  const shares = sharesOf(model, layout);
  return { model, goal, layout, ways, prior, mended: probability.length, shares, remedyMinutes };
}

function sharesOf(model: FaultModel, { tests }: Layout): World['shares'] {
  const known: Float64Array[][] = [];
  return (test, result) => {
    const columns = (known[test] ??= columnsOf(model, tests[test]?.id ?? ''));
    return columns[result] ?? new Float64Array(model.findings.length + 1);
  };
}

/** Columns of tables met before, since models of one tree after another share those of the tests that have not changed. */
const columns = new WeakMap<TestModel, Float64Array[]>();

function columnsOf(model: FaultModel, test: string): Float64Array[] {
  const table = model.test(test);
  const known = columns.get(table) ?? columnsFrom(table, model.findings.length);
  columns.set(table, known);
  return known;
}

function columnsFrom({ results, probability }: TestModel, rows: number): Float64Array[] {
  return results.map((_, column) => {
    const shares = new Float64Array(rows + 1);
    for (let row = 0; row < rows; row += 1) shares[row] = probability[row * results.length + column] ?? 0;
    return shares;
  });
}
