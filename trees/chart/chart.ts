import type { Tree } from '../document/index.ts';
import { machineOf, type ChartMachine } from './machine.ts';

/** A tree revision made walkable. `machine` is an XState machine for an actor or an inspector to run. */
export interface Chart {
  readonly tree: Tree;
  readonly machine: ChartMachine;
}

/** Compiles a tree that the checker found no errors in; one machine serves every symptom and every job. */
export function compileChart(tree: Tree): Chart {
  return { tree, machine: machineOf(tree) };
}
