import { openFaultModels, type FaultModel } from '../../../trees/belief/index.ts';
import { own, type Tree } from '../../../trees/document/index.ts';
import {
  costTheSame,
  evaluateTraffic,
  startEvaluation,
  type Evaluation,
  type StepTraffic,
} from '../../../trees/plan/index.ts';
import type { Costed, FixCost, IsolateCost, ShopFigures } from './protocol.ts';

export interface CostedWithTraffic {
  readonly costed: Costed<IsolateCost>;
  /** Made when it is first asked for. */
  readonly traffic: readonly StepTraffic[];
}

/** The cost to fix, bit by bit: null until it is there. */
export type Fixing = (states: number) => Costed<FixCost> | null;

/** The costs of one tree after another, as edits make them of each other. */
export interface Coster {
  readonly isolate: (tree: Tree, symptom: string) => CostedWithTraffic;
  readonly fix: (tree: Tree, symptom: string) => Fixing;
}

/** Costs are kept for as long as nothing changes that they go by; trees are to be free of errors. */
export function openCoster({ history, rate }: ShopFigures): Coster {
  const modelOf = openFaultModels(history);
  const isolated = new Map<string, CostedWithTraffic>();
  const fixed = new Map<string, Costed<FixCost>>();
  let last: FaultModel | null = null;
  const modelFor = (tree: Tree): FaultModel => {
    const model = modelOf(tree);
    // Models that share their tables also share the function that gives them.
    if (last !== null && (last.test !== model.test || !costTheSame(last.tree, tree))) {
      isolated.clear();
      fixed.clear();
    }
    last = model;
    return model;
  };
  return {
    isolate(tree, symptom) {
      const model = modelFor(tree);
      const found = isolated.get(symptom) ?? isolate(model, symptom, rate);
      isolated.set(symptom, found);
      return found;
    },
    fix(tree, symptom) {
      const model = modelFor(tree);
      const known = fixed.get(symptom);
      if (known !== undefined) return () => known;
      const missing = missingPath(tree, symptom);
      if (missing !== null) return () => missing;
      const goOn = startEvaluation({ model, symptom, goal: 'fix', rate });
      return (states) => {
        const found = goOn(states);
        if (found === null) return null;
        const costed = { ok: true, cost: fixCost(found) } as const;
        if (last === model) fixed.set(symptom, costed);
        return costed;
      };
    },
  };
}

function isolate(model: FaultModel, symptom: string, rate: number | null): CostedWithTraffic {
  const missing = missingPath(model.tree, symptom);
  if (missing !== null) return { costed: missing, traffic: [] };
  const found = evaluateTraffic({ model, symptom, rate });
  const { expectedMinutes, expectedTests, rightFinding } = found;
  const cost = { minutes: expectedMinutes, tests: expectedTests, right: rightFinding };
  return {
    costed: { ok: true, cost },
    get traffic() {
      return found.traffic;
    },
  };
}

function missingPath(tree: Tree, symptom: string): (Costed<never> & { readonly ok: false }) | null {
  const part = own(tree.symptoms, symptom);
  if (part === undefined) return { ok: false, because: 'no-symptom' };
  return part.first === undefined ? { ok: false, because: 'no-path' } : null;
}

function fixCost({ expectedMinutes, rightFinding, passedOn }: Evaluation): FixCost {
  return { minutes: expectedMinutes, fixed: rightFinding, passedOn };
}
