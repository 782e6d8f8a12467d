import { flows, type Flows, type Tree } from '../document/index.ts';
import { compileFaultModel, type FaultModel } from './fault-model.ts';
import type { History } from './history.ts';

/**
 * {@link compileFaultModel} for one tree after another, as edits make them of each other: where nothing has changed that its
 * tables go by, as in texts and minutes, the next model keeps the tables that the last one has worked out. For trees that share
 * the identity of the parts they have in common.
 */
export function openFaultModels(history: History): (tree: Tree) => FaultModel {
  let last: { readonly model: FaultModel; readonly flow: Flows } | null = null;
  return (tree) => {
    const flow = flows(tree);
    const isSame = last !== null && last.flow === flow && haveSameTables(last.model.tree, tree);
    const model = isSame && last !== null ? { ...last.model, tree } : compileFaultModel(tree, history);
    last = { model, flow };
    return model;
  };
}

/** For trees of the same flows, which have the same findings, tests and results by id, and the same symptoms. */
function haveSameTables(one: Tree, other: Tree): boolean {
  return (
    areAlike(one.defaults, other.defaults) &&
    Object.entries(other.tests).every(
      ([id, { reliability }]) => one.tests[id]?.reliability === reliability,
    ) &&
    Object.entries(other.findings).every(([id, { expects }]) => areAlike(one.findings[id]?.expects, expects))
  );
}

function areAlike(one: object | undefined, other: object): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
