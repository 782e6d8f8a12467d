import { flows, own, UNLISTED, type Flows, type Tree } from '../document/index.ts';
import { fixRateOf } from './fix-rate.ts';
import type { History } from './history.ts';
import { priorOf, type Prior } from './prior.ts';
import { testModelOf, type TestModel } from './test-model.ts';

/**
 * One tree revision with the shop's history, ready for arithmetic. Every table is worked out when it is first asked
 * for and kept. Ids that the tree does not have are bugs and throw.
 */
export interface FaultModel {
  readonly tree: Tree;
  /** The tree's findings in document order, `unlisted` last; the rows of every table. */
  readonly findings: readonly string[];
  /** The row of a finding. */
  readonly row: (finding: string) => number;
  readonly prior: (symptom: string) => Prior;
  readonly test: (test: string) => TestModel;
  /** The chance that a finding's remedy mends a unit that has it; 0 for `unlisted`, which no remedy of the tree mends. */
  readonly fixRate: (finding: string) => number;
}

/** The fault model of a tree and what closed jobs have added to it (DESIGN section 4). `flow` is that of the tree. */
export function compileFaultModel(tree: Tree, history: History, flow: Flows = flows(tree)): FaultModel {
  const findings = [...Object.keys(tree.findings), UNLISTED];
  const rows = new Map(findings.map((finding, row) => [finding, row]));
  const authored = findings.map((finding) =>
    finding === UNLISTED ? null : (own(tree.findings, finding) ?? null),
  );
  return {
    tree,
    findings,
    row: (finding) => known(rows.get(finding), 'finding', finding),
    prior: remembered((symptom) => {
      known(own(tree.symptoms, symptom), 'symptom', symptom);
      return priorOf(tree, flow, history, findings, symptom);
    }),
    test: remembered((id) => {
      const test = known(own(tree.tests, id), 'test', id);
      return testModelOf({ tree, flow, history, findings, authored }, id, test);
    }),
    fixRate: (finding) => {
      known(rows.get(finding), 'finding', finding);
      return finding === UNLISTED ? 0 : fixRateOf(tree, history, finding);
    },
  };
}

function remembered<V>(make: (id: string) => V): (id: string) => V {
  const made = new Map<string, V>();
  return (id) => {
    const had = made.get(id);
    if (had !== undefined) return had;
    const value = make(id);
    made.set(id, value);
    return value;
  };
}

function known<V>(value: V | undefined, what: string, id: string): V {
  if (value === undefined) throw new Error(`unknown-${what}: the tree has no ${what} "${id}"`);
  return value;
}
