import type { Instrument, Tree } from '../../../trees/document/index.ts';
import { assembled, keepWays } from './assemble-graph.ts';
import { authoredShares, type BranchShares } from './authored-shares.ts';
import { keepAlike } from '../desk/alike.ts';
import { keepDrawnSteps } from './drawn-step.ts';
import { numberedSteps } from './numbered-steps.ts';
import { pathsAlike } from './paths-alike.ts';

/** One of the ways out of a step: a branch where `go` is there, else a loose end. */
export interface DrawnResult {
  /** The branch's pointer, which is its id in the drawing too; the place is there whether or not the branch is yet. */
  readonly at: string;
  readonly result: string;
  readonly title: string;
  /** The branch's `go` as written; absent where the result has no branch yet. */
  readonly go?: string;
  /** Share of the units that the symptom brings in which pass here, 0..1. */
  readonly share: number;
  /** False where the test gives no such result (any more), so that the branch cannot be taken. */
  readonly given: boolean;
}

/** What the drawing shows as a box. `id` is its pointer, but for a lead into another path, which is its `go`. */
export type DrawnNode =
  | {
      readonly kind: 'start';
      readonly id: string;
      readonly at: string;
      readonly title: string;
      readonly first?: string;
    }
  | DrawnStep
  | {
      readonly kind: 'finding';
      readonly id: string;
      readonly at: string;
      readonly finding: string;
      readonly title: string;
      readonly minutes: number;
      /** Share of the units that the symptom brings in which arrive, 0..1. */
      readonly share: number;
    }
  | {
      readonly kind: 'elsewhere';
      readonly id: string;
      readonly at: string;
      readonly symptom: string;
      readonly step?: string;
      /** The other symptom's title. */
      readonly title: string;
      /** The title of the test that is gone on with there, where there is one. */
      readonly testTitle: string;
      readonly share: number;
    };

export interface DrawnStep {
  readonly kind: 'step';
  readonly id: string;
  readonly at: string;
  readonly step: string;
  /** Steps are numbered in the order they can be come to; those not come to follow. */
  readonly number: number;
  readonly test: string;
  readonly title: string;
  /** Absent where the tree has no such test. */
  readonly instrument?: Instrument;
  readonly minutes: number;
  /** The titles of the bench states needed. */
  readonly needs: readonly string[];
  readonly reached: boolean;
  readonly share: number;
  readonly results: readonly DrawnResult[];
}

/**
 * A line from one box to another: the start's lead to the first step, a result's branch, or where a finding goes on when its
 * remedy does not mend. The last kind is `back` where its step is come to by branches too, mostly before the finding.
 */
export interface DrawnBranch {
  readonly kind: 'first' | 'result' | 'otherwise';
  readonly id: string;
  readonly at: string;
  readonly from: string;
  readonly to: string;
  readonly result?: string;
  /** The place of the way out among the step's results. */
  readonly place: number;
  readonly title: string;
  readonly share: number;
  readonly given: boolean;
  readonly back: boolean;
}

/** A symptom's path as a drawing: what there is and how it hangs together, without places. */
export interface Graph {
  readonly symptom: string;
  readonly nodes: readonly DrawnNode[];
  readonly branches: readonly DrawnBranch[];
  readonly node: ReadonlyMap<string, DrawnNode>;
}

/** A path as a graph; `shares` are what is known of the units' way, else the authors' weights say it. */
export type GraphOf = (tree: Tree, symptom: string, shares?: BranchShares) => Graph;

/**
 * A symptom's path as boxes and lines: the start, every step once, each finding and each place in another path that a
 * branch leads to once, and every branch once. A result without a branch, and one that leads nowhere, is a loose end of
 * its step. Takes drafts as they are: what they name need not be there.
 */
export const graphOf: GraphOf = (tree, symptom, shares) => openGraphs()(tree, symptom, shares);

/**
 * {@link graphOf} of one tree after another, as edits make them of each other: boxes, lines and lists that an edit leaves alone keep
 * their identity, and so does the graph where it leaves all of it alone.
 */
export function openGraphs(): GraphOf {
  let making: { readonly symptom: string; readonly make: MakeGraph } | undefined;
  return (tree, symptom, shares = authoredShares(tree, symptom)) => {
    if (making?.symptom !== symptom) making = { symptom, make: keepGraph(symptom) };
    return making.make(tree, shares);
  };
}

type MakeGraph = (tree: Tree, shares: BranchShares) => Graph;

function keepGraph(symptom: string): MakeGraph {
  const drawnStepOf = keepDrawnSteps(symptom);
  const waysOf = keepWays(symptom);
  let last: { readonly tree: Tree; readonly shares: BranchShares; readonly graph: Graph } | undefined;
  return (tree, shares) => {
    const former = last?.graph;
    if (former === undefined || last?.shares !== shares || !drawnOfTheSame(last.tree, tree)) {
      const steps = numberedSteps(tree, symptom).map((numbered) => drawnStepOf(tree, numbered, shares));
      last = { tree, shares, graph: kept(former, assembled(tree, symptom, steps, waysOf)) };
    } else if (last.tree !== tree) {
      // With the parts as they are now, the next question is answered by their identity.
      last = { ...last, tree };
    }
    return last.graph;
  };
}

/** All that a drawing is made of. */
function drawnOfTheSame(one: Tree, other: Tree): boolean {
  return (
    pathsAlike(one.symptoms, other.symptoms) &&
    one.tests === other.tests &&
    one.findings === other.findings &&
    one.bench === other.bench
  );
}

function ofTheSameShare<T extends DrawnNode | DrawnBranch>(former: T | undefined, now: T): T | undefined {
  return former !== undefined && shareOf(former) === shareOf(now) ? former : undefined;
}

function shareOf(one: DrawnNode | DrawnBranch): number {
  return 'share' in one ? one.share : 0;
}

/** A graph with all of the former one that is like it. */
function kept(former: Graph | undefined, { symptom, ...now }: Omit<Graph, 'node'>): Graph {
  // Shares are what changes most often, and are soon looked at.
  const nodes = keepAlike(former?.nodes ?? [], now.nodes, (one) =>
    ofTheSameShare(former?.node.get(one.id), one),
  );
  const branches = keepAlike(former?.branches ?? [], now.branches, (one, place) =>
    ofTheSameShare(former?.branches[place], one),
  );
  if (former !== undefined && nodes === former.nodes && branches === former.branches) return former;
  const node =
    former !== undefined && nodes === former.nodes ? former.node : new Map(nodes.map((one) => [one.id, one]));
  return { symptom, nodes, branches, node };
}
