import { destination, own, type Instrument, type Tree } from '../../../trees/document/index.ts';
import { authoredShares, type BranchShares } from './authored-shares.ts';
import { keepAlike } from './drawn-alike.ts';
import { keepDrawnSteps } from './drawn-step.ts';
import { numberedSteps, otherwiseStep } from './numbered-steps.ts';
import { findingAt, firstAt, placeOfGo, stepAt, symptomAt } from './places.ts';

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
    }
    return last.graph;
  };
}

/** All that a drawing is made of. */
function drawnOfTheSame(one: Tree, other: Tree): boolean {
  return (
    one.symptoms === other.symptoms &&
    one.tests === other.tests &&
    one.findings === other.findings &&
    one.bench === other.bench
  );
}

/** A graph with all of the former one that is like it. */
function kept(former: Graph | undefined, { symptom, ...now }: Omit<Graph, 'node'>): Graph {
  const nodes = keepAlike(former?.nodes ?? [], now.nodes, ({ id }) => former?.node.get(id));
  const branches = keepAlike(former?.branches ?? [], now.branches);
  if (former !== undefined && nodes === former.nodes && branches === former.branches) return former;
  const node =
    former !== undefined && nodes === former.nodes ? former.node : new Map(nodes.map((one) => [one.id, one]));
  return { symptom, nodes, branches, node };
}

type WaysOf = (step: DrawnStep) => readonly DrawnBranch[];

function assembled(
  tree: Tree,
  symptom: string,
  steps: readonly DrawnStep[],
  waysOf: WaysOf,
): Omit<Graph, 'node'> {
  const start = startOf(tree, symptom);
  const known = new Map<string, DrawnNode>([start, ...steps].map((node) => [node.id, node]));
  const arriving = new Map<string, number>();
  const branches: DrawnBranch[] = start.first === undefined ? [] : [startBranch(symptom, start, start.first)];
  for (const step of steps)
    for (const way of waysOf(step)) {
      const node = known.get(way.to) ?? leadTo(tree, symptom, goAt(step, way));
      if (node === undefined) continue;
      // What a branch leads to is put among the boxes when it is first met.
      known.set(way.to, node);
      branches.push(way);
      if (node.kind !== 'step') arriving.set(way.to, (arriving.get(way.to) ?? 0) + way.share);
    }
  branches.push(...otherwiseOf(tree, symptom, known, branches));
  return { symptom, nodes: [...known.values()].map((node) => withArrivals(node, arriving)), branches };
}

function startOf(tree: Tree, symptom: string): Extract<DrawnNode, { kind: 'start' }> {
  const path = own(tree.symptoms, symptom);
  const first = path?.first;
  return {
    kind: 'start',
    id: symptomAt(symptom),
    at: symptomAt(symptom),
    title: path?.title ?? symptom,
    ...(first !== undefined && own(path?.steps ?? {}, first) !== undefined ? { first } : {}),
  };
}

function startBranch(symptom: string, start: DrawnNode, first: string): DrawnBranch {
  const at = firstAt(symptom);
  const to = stepAt(symptom, first);
  const title = 'first step';
  return {
    kind: 'first',
    id: at,
    at,
    from: start.id,
    to,
    place: 0,
    title,
    share: 1,
    given: true,
    back: false,
  };
}

/** A step's ways out that are branches, whether or not there is what they lead to; the same again while the step is the same. */
function keepWays(symptom: string): WaysOf {
  const made = new WeakMap<DrawnStep, readonly DrawnBranch[]>();
  return (step) => {
    const known = made.get(step);
    if (known !== undefined) return known;
    const ways = step.results.flatMap(({ at, result, title, go, share, given }, place): DrawnBranch[] => {
      if (go === undefined) return [];
      const to = placeOfGo(go, symptom);
      const line = { id: at, at, from: step.id, to, result, place, title, share, given };
      return [{ kind: 'result', ...line, back: false }];
    });
    made.set(step, ways);
    return ways;
  };
}

function goAt({ results }: DrawnStep, { place }: DrawnBranch): string {
  return results[place]?.go ?? '';
}

/** The lines from findings to the steps of this path where they go on otherwise. */
function otherwiseOf(
  tree: Tree,
  symptom: string,
  known: ReadonlyMap<string, DrawnNode>,
  branches: readonly DrawnBranch[],
): readonly DrawnBranch[] {
  const led = new Set(branches.map(({ to }) => to));
  return [...known.values()].flatMap((node) => {
    if (node.kind !== 'finding') return [];
    return otherwiseStep(tree, symptom, node.finding).map((step): DrawnBranch => {
      const at = `${node.at}/otherwise`;
      const to = stepAt(symptom, step);
      const line = { id: at, at, from: node.id, to, place: 0, title: 'not mended', share: 0, given: true };
      return { kind: 'otherwise', ...line, back: led.has(to) };
    });
  });
}

/** The box for a finding or for a place in another path; undefined where there is no such place. */
function leadTo(tree: Tree, symptom: string, go: string): DrawnNode | undefined {
  const lead = destination(go, symptom);
  if (lead.kind === 'finding') {
    const finding = own(tree.findings, lead.finding);
    if (finding === undefined) return undefined;
    const at = findingAt(lead.finding);
    const { title, remedy } = finding;
    return { kind: 'finding', id: at, at, finding: lead.finding, title, minutes: remedy.minutes, share: 0 };
  }
  const other = own(tree.symptoms, lead.symptom);
  const step = lead.kind === 'step' ? lead.step : other?.first;
  const there = own(other?.steps ?? {}, step ?? '');
  if (other === undefined || (lead.kind === 'step' && there === undefined)) return undefined;
  return {
    kind: 'elsewhere',
    id: placeOfGo(go, symptom),
    at: lead.kind === 'step' ? stepAt(lead.symptom, lead.step) : symptomAt(lead.symptom),
    symptom: lead.symptom,
    ...(lead.kind === 'step' ? { step: lead.step } : {}),
    title: other.title,
    testTitle: there === undefined ? '' : (own(tree.tests, there.test)?.title ?? there.test),
    share: 0,
  };
}

function withArrivals(node: DrawnNode, arriving: ReadonlyMap<string, number>): DrawnNode {
  const arrives = node.kind === 'finding' || node.kind === 'elsewhere';
  return arrives ? { ...node, share: arriving.get(node.id) ?? 0 } : node;
}
