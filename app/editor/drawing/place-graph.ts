import type { DrawnBranch, DrawnNode, Graph } from './graph.ts';
import { onwardFrom } from './onward.ts';
import { boundsOf, type Box, type Line, type Placed, type Point, type Shape, type Shapes } from './placed.ts';
import { leavesAt, sizeOf } from './size.ts';

/** Room between the path and what stands apart from it. */
const APART = 160;

/** What of a graph is laid out together: the path from its start, and what the start does not come to. */
export interface Parts {
  readonly reached: Shapes;
  readonly apart: Shapes;
  /** Lines from what stands apart into the path, and back to an earlier step: drawn once all have their places. */
  readonly between: readonly Line[];
}

/** Splits a graph into its {@link Parts}. */
export function partsOf(graph: Graph): Parts {
  const main = reachedOf(graph);
  const nodes = inOrder(graph).map((node): Shape => ({ id: node.id, ...sizeOf(node) }));
  const lines = graph.branches.filter(({ back }) => !back).map((branch) => lineOf(graph, branch));
  const back = graph.branches.filter((branch) => branch.back).map((branch) => lineOf(graph, branch));
  const within = (inMain: boolean): Shapes => ({
    shapes: nodes.filter(({ id }) => main.has(id) === inMain),
    lines: lines.filter(({ from, to }) => main.has(from) === inMain && main.has(to) === inMain),
  });
  return {
    reached: within(true),
    apart: within(false),
    between: [...lines.filter(({ from, to }) => main.has(from) !== main.has(to)), ...back],
  };
}

/** Puts the two parts' places side by side. */
export function together(parts: Parts, reached: Placed, apart: Placed): Placed {
  const bounds = boundsOf(reached.boxes.values());
  const from = boundsOf(apart.boxes.values());
  const shift = { x: bounds.x + bounds.width + APART - from.x, y: bounds.y - from.y };
  const boxes = new Map<string, Box>(reached.boxes);
  for (const [id, box] of apart.boxes) boxes.set(id, { ...box, x: box.x + shift.x, y: box.y + shift.y });
  const ways = new Map<string, readonly Point[]>(reached.ways);
  for (const [id, way] of apart.ways)
    ways.set(
      id,
      way.map(({ x, y }) => ({ x: x + shift.x, y: y + shift.y })),
    );
  for (const line of parts.between) ways.set(line.id, straight(line, boxes));
  if (apart.boxes.size === 0) return { boxes, ways };
  return { boxes, ways, apart: { ...from, x: from.x + shift.x, y: from.y + shift.y } };
}

/** From the foot of the one to the head of the other. */
export function straight(line: Line, boxes: ReadonlyMap<string, Box>): readonly Point[] {
  const from = boxes.get(line.from);
  const to = boxes.get(line.to);
  if (from === undefined || to === undefined) return [];
  return [
    { x: from.x + line.leavesAt, y: from.y + from.height },
    { x: to.x + to.width / 2, y: to.y },
  ];
}

/**
 * The way of a branch among places that may be those of the graph before an edit: the one it was given, or where that leads
 * elsewhere by now, straight from foot to head. Empty where either end has no place yet.
 */
export function wayOf(graph: Graph, { boxes, ways }: Placed, branch: DrawnBranch): readonly Point[] {
  const direct = straight(lineOf(graph, branch), boxes);
  const given = ways.get(branch.id) ?? [];
  return [0, -1].every((end) => samePoint(direct.at(end), given.at(end))) ? given : direct;
}

function samePoint(one: Point | undefined, other: Point | undefined): boolean {
  return one?.x === other?.x && one?.y === other?.y;
}

/** Are two graphs laid out alike: the same boxes of the same sizes, and the same lines between them, in the same order? */
export function sameShape(one: Graph, other: Graph): boolean {
  return (
    one.nodes.length === other.nodes.length &&
    one.branches.length === other.branches.length &&
    (one.nodes === other.nodes || one.nodes.every((node, index) => alike(node, other.nodes[index]))) &&
    (one.branches === other.branches ||
      one.branches.every((branch, index) => sameLine(branch, other.branches[index])))
  );
}

function sameLine(branch: DrawnBranch, other: DrawnBranch | undefined): boolean {
  return branch === other || (branch.id === other?.id && branch.to === other.to);
}

/** Boxes before those they lead to, so that a line against that order is known to be on a loop. */
function inOrder(graph: Graph): readonly DrawnNode[] {
  const next = new Map<string, string[]>();
  for (const { from, to, back } of graph.branches) {
    if (back) continue;
    const leads = next.get(from);
    if (leads === undefined) next.set(from, [to]);
    else leads.push(to);
  }
  const ids = onwardFrom(
    graph.nodes.map(({ id }) => id),
    (id) => next.get(id) ?? [],
  );
  return ids.flatMap((id) => graph.node.get(id) ?? []);
}

function alike(node: DrawnNode, other: DrawnNode | undefined): boolean {
  if (node === other) return true;
  if (node.id !== other?.id || node.kind !== other.kind) return false;
  if (node.kind !== 'step' || other.kind !== 'step') return true;
  return node.results.length === other.results.length && node.reached === other.reached;
}

function lineOf(graph: Graph, branch: DrawnBranch): Line {
  const from = graph.node.get(branch.from);
  return {
    id: branch.id,
    from: branch.from,
    to: branch.to,
    leavesAt: from === undefined ? 0 : leavesAt(from, branch),
  };
}

function reachedOf(graph: Graph): ReadonlySet<string> {
  const reached = new Set(
    graph.nodes
      .filter((node) => node.kind === 'start' || (node.kind === 'step' && node.reached))
      .map(({ id }) => id),
  );
  const from = new Set(reached);
  for (const branch of graph.branches) if (from.has(branch.from)) reached.add(branch.to);
  return reached;
}
