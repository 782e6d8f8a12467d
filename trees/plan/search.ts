import { fixBounds } from './fix-bounds.ts';
import { hasEnded, moves } from './isolate-end.ts';
import { isolateBounds, type Bounds } from './isolate-bounds.ts';
import { entropyBits, gainBits } from './information-gain.ts';
import { positionKeys } from './key.ts';
import { remedyMinutes, remedyOutlook, testMinutes, testOutcomes, type Outcome } from './outcome.ts';
import { startPosition, viewAt, type Position } from './position.ts';
import type { Problem } from './problem.ts';

/** A position with what is known of its least expected minutes. */
export interface Node extends Position {
  /** No policy takes fewer expected minutes. */
  lower: number;
  /** Some policy takes no more. */
  upper: number;
  /** What is expected before both are worked out. */
  guess: number;
  /** What it would take if the finding were known. */
  readonly known: number;
  /** Null until the node is opened. */
  acts: Act[] | null;
}

/** An outcome with the node that it leads to. */
export interface Foreseen {
  readonly result: number;
  readonly probability: number;
  readonly minutes: number;
  readonly node: Node;
}

/** An act at a node; `outcomes` are null until it is looked into, and its figures no more than estimates till then. */
export interface Act {
  readonly kind: 'test' | 'remedy' | 'pass-on';
  /** The test's or finding's number; 0 for passing on. */
  readonly at: number;
  /** A remedy's are without its proof until it is looked into. */
  minutes: number;
  lower: number;
  upper: number;
  guess: number;
  outcomes: readonly Foreseen[] | null;
}

/** What leads the search: `lower` towards the optimum, `guess` towards a good plan soon. */
export type Lead = 'lower' | 'guess';

/** A difference of minutes that no longer counts. */
const CLOSED = 1e-11;

export function isClosed({ lower, upper }: { readonly lower: number; readonly upper: number }): boolean {
  return upper - lower <= CLOSED * Math.max(1, upper);
}

/** The graph of positions that a search has come to so far. */
export interface Graph {
  readonly problem: Problem;
  readonly root: Node;
  /** Makes known what can be done at a node. */
  readonly open: (node: Node) => void;
  /** Makes known what an act leads to. */
  readonly lookInto: (act: Act, node: Node) => void;
  /** The node of a position that the search has come to; null where it has not. */
  readonly find: (position: Position) => Node | null;
  readonly size: () => number;
}

/**
 * The graph of a problem, with nothing but its root. `inHand`: what a plan that can be followed from any position takes, as a bound
 * from above.
 */
export function graphOf(problem: Problem, inHand: (position: Position) => number = () => Infinity): Graph {
  const nodes = new Map<string, Node>();
  const key = positionKeys(problem);
  const isolating = problem.goal === 'isolate';
  const { boundsAt } = isolating ? isolateBounds(problem) : fixBounds(problem);
  const nodeAt = (position: Position): Node => {
    const name = key(position);
    const known = nodes.get(name);
    if (known !== undefined) return known;
    const made =
      isolating && hasEnded(problem, position)
        ? ended(position)
        : unopened(position, boundsAt(position), inHand(position));
    nodes.set(name, made);
    return made;
  };
  const foreseen = (outcomes: readonly Outcome[]): Act['outcomes'] =>
    outcomes.map(({ position, ...outcome }) => ({ ...outcome, node: nodeAt(position) }));
  const lookInto = (act: Act, node: Node): void => {
    if (act.kind === 'test') act.outcomes ??= foreseen(testOutcomes(problem, node, act.at));
    else lookIntoRemedy(act, node);
    updateAct(act);
  };
  const lookIntoRemedy = (act: Act, node: Node): void => {
    const outlook = remedyOutlook(problem, viewAt(problem, node.marks), node, act.at);
    if (outlook === null) return;
    act.minutes = outlook.minutes;
    act.outcomes = foreseen(outlook.fails === null ? [] : [outlook.fails]);
  };
  const open = (node: Node): void => {
    node.acts = [...testActs(problem, node), ...(isolating ? [] : repairActs(problem, node))];
    if (node.acts.length === 0) Object.assign(node, { lower: 0, upper: 0, guess: 0 });
    else update(node);
  };
  return {
    problem,
    root: nodeAt(startPosition(problem)),
    open,
    lookInto,
    find: (position) => nodes.get(key(position)) ?? null,
    size: () => nodes.size,
  };
}

function ended(position: Position): Node {
  return { ...position, lower: 0, upper: 0, guess: 0, known: 0, acts: [] };
}

function unopened(position: Position, bounds: Bounds, inHand: number): Node {
  const upper = Math.min(bounds.upper, inHand);
  const lower = Math.min(bounds.lower, upper);
  return { ...position, ...bounds, lower, upper, guess: Math.min(bounds.guess, upper), acts: null };
}

/**
 * Tests that can be made now and tell something, or may open the way to one that does. What telling still takes is guessed
 * to fall as the entropy does.
 */
function testActs(problem: Problem, node: Node): Act[] {
  const view = viewAt(problem, node.marks);
  const entropy = entropyBits(node.belief);
  // What tells nothing now may tell something once a remedy has made other results forgotten.
  const forgets =
    problem.goal === 'fix' &&
    !problem.endsAtRemedy &&
    problem.remedies.some(({ disturbs }) => disturbs.length > 0);
  // What tells nothing may still be a way to bring the bench somewhere before an interlock shuts it off.
  const locked = problem.bench.locks.length > 0;
  return problem.tests.flatMap((test, at): Act[] => {
    const tells = forgets ? test.telling : moves(test, node.belief);
    if (!tells && !locked && !test.opens && !test.isReference) return [];
    const minutes = testMinutes(problem, view, node, at);
    if (minutes === Infinity) return [];
    const lower = problem.goal === 'fix' ? minutes + node.lower : Math.max(minutes, node.lower);
    const told = entropy > 0 ? gainBits(test, node.belief) / entropy : 1;
    const guess = Math.max(lower, minutes + node.known + (node.guess - node.known) * (1 - told));
    return [{ kind: 'test', at, minutes, lower, upper: Infinity, guess, outcomes: null }];
  });
}

function repairActs(problem: Problem, node: Node): Act[] {
  const { escalate, remedies, endsAtRemedy } = problem;
  const view = viewAt(problem, node.marks);
  const least = remedies.reduce(
    (less, { minutes, leastProof }) => Math.min(less, minutes + leastProof),
    escalate,
  );
  const acts = remedies.flatMap(({ fixRate, leastProof }, at): Act[] => {
    const own = remedyMinutes(problem, view, node, at);
    if (own === Infinity) return [];
    const fails = 1 - (node.belief[at] ?? 0) * fixRate;
    const minutes = own + leastProof;
    const lower = minutes + Math.max(0, fails) * (endsAtRemedy ? escalate : least);
    const guess = minutes + fails * (endsAtRemedy ? escalate : Math.max(least, node.guess));
    return [{ kind: 'remedy', at, minutes, lower, upper: Infinity, guess, outcomes: null }];
  });
  const known = { minutes: escalate, lower: escalate, upper: escalate, guess: escalate };
  return [...acts, { kind: 'pass-on', at: 0, ...known, outcomes: [] }];
}

/** An act's figures from those of what it leads to. */
export function updateAct(act: Act): void {
  if (act.outcomes === null) return;
  let { minutes: lower, minutes: upper, minutes: guess } = act;
  for (const { probability, minutes, node } of act.outcomes) {
    lower += probability * (minutes + node.lower);
    upper += probability * (minutes + node.upper);
    guess += probability * (minutes + node.guess);
  }
  act.lower = Math.max(act.lower, lower);
  act.upper = upper;
  act.guess = Math.max(act.lower, guess);
}

/** A node's figures from those of its acts as they are now, each looked at again. */
export function updateWhole(node: Node): void {
  node.acts?.forEach(updateAct);
  update(node);
}

/** A node's figures from those of its acts. Bounds only ever close in. */
export function update(node: Node): void {
  let lower = Infinity;
  let upper = Infinity;
  let guess = Infinity;
  for (const act of node.acts ?? []) {
    if (act.lower < lower) lower = act.lower;
    if (act.upper < upper) upper = act.upper;
    if (act.guess < guess) guess = act.guess;
  }
  if (lower > node.lower) node.lower = lower;
  if (upper < node.upper) node.upper = upper;
  if (node.lower > node.upper) node.lower = node.upper;
  if (guess < Infinity) node.guess = Math.min(node.upper, Math.max(node.lower, guess));
}

/**
 * One trial: goes down by the act that leads and the outcome where most is open, opens the first node not opened yet, and
 * brings what it finds back up. Nothing else is looked into, so that only what can be part of a best plan costs time
 * (best-first search of an and-or graph: Pattipati & Alexandridis 1990; bounds from both sides: McMahan, Likhachev & Gordon
 * 2005). Gives the number of nodes opened.
 */
export function trial(graph: Graph, from: Node, lead: Lead): number {
  const path: { readonly node: Node; readonly act: Act }[] = [];
  let node = from;
  let opened = 0;
  while (!isClosed(node)) {
    if (node.acts === null) {
      graph.open(node);
      opened = 1;
      break;
    }
    const act = leading(graph, node, lead);
    const next = act === null ? null : mostOpen(act);
    if (act === null || next === null) break; // all that leads is closed, and with it the node
    path.push({ node, act });
    node = next;
  }
  for (const { node: above, act } of path.reverse()) {
    updateAct(act);
    update(above);
  }
  return opened;
}

/** The act that leads at a node once its figures are those of now, looked into; null where there is none. */
function leading(graph: Graph, node: Node, lead: Lead): Act | null {
  for (;;) {
    let best: Act | null = null;
    for (const act of node.acts ?? [])
      if (best === null || figure(act, lead) < figure(best, lead)) best = act;
    if (best === null) return null;
    const before = figure(best, lead);
    if (best.outcomes === null) graph.lookInto(best, node);
    else updateAct(best);
    if (figure(best, lead) === before && best.outcomes !== null) {
      update(node);
      return best;
    }
  }
}

function figure(act: Act, lead: Lead): number {
  return lead === 'lower' ? act.lower : act.guess;
}

/** The outcome whose bounds are furthest apart, weighed by its probability; null where all are closed. */
function mostOpen(act: Act): Node | null {
  let best: Node | null = null;
  let most = 0;
  for (const { probability, node } of act.outcomes ?? []) {
    const open = isClosed(node) ? 0 : probability * (node.upper - node.lower);
    if (open > most) {
      best = node;
      most = open;
    }
  }
  return best;
}
