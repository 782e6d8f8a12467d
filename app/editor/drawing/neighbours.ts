import { placeOfGo } from './places.ts';
import type { DrawnNode, DrawnResult, DrawnStep, Graph } from './graph.ts';
import type { Placed } from './placed.ts';

/** One place in the drawing that the keyboard can stand on: a box, or one of a step's ways out. */
export type Spot =
  | { readonly kind: 'node'; readonly id: string; readonly node: DrawnNode }
  | { readonly kind: 'result'; readonly id: string; readonly node: DrawnStep; readonly result: DrawnResult };

export type Direction = 'up' | 'down' | 'left' | 'right';

/** The spot of an id: a box's, or a branch's pointer. The lines of the start and of findings are their boxes' own. */
export function spotOf(graph: Graph, id: string): Spot | undefined {
  const node = graph.node.get(id.replace(/\/(first|otherwise)$/, ''));
  if (node !== undefined) return { kind: 'node', id: node.id, node };
  const step = graph.node.get(id.slice(0, Math.max(0, id.lastIndexOf('/then/'))));
  if (step?.kind !== 'step') return undefined;
  const result = step.results.find(({ at }) => at === id);
  return result === undefined ? undefined : { kind: 'result', id, node: step, result };
}

/** The id of the box that a spot is in or is. */
export function boxOf(spot: Spot): string {
  return spot.node.id;
}

/**
 * Where an arrow key leads: down from a step to its likeliest way out, from a way out to what it leads to; up from a way
 * out to its step, from a box to the likeliest branch that leads in; left and right to the step's other ways out, or to
 * the next box of about the same height. Undefined where there is nothing that way.
 */
export function towards(graph: Graph, placed: Placed, from: Spot, direction: Direction): string | undefined {
  if (direction === 'left' || direction === 'right') {
    const by = direction === 'left' ? -1 : 1;
    return from.kind === 'result' ? sibling(from.node, from.id, by) : beside(placed, from.id, by);
  }
  if (direction === 'up') return from.kind === 'result' ? from.node.id : leadingIn(graph, from.id);
  if (from.kind === 'result') {
    const to = from.result.go === undefined ? undefined : placeOfGo(from.result.go, graph.symptom);
    return to !== undefined && graph.node.has(to) ? to : undefined;
  }
  if (from.node.kind !== 'step') return graph.branches.find((branch) => branch.from === from.id)?.to;
  return likeliest(from.node.results)?.at;
}

function sibling(step: DrawnStep, id: string, by: number): string | undefined {
  return step.results[step.results.findIndex(({ at }) => at === id) + by]?.at;
}

function leadingIn(graph: Graph, id: string): string | undefined {
  const branch = likeliest(graph.branches.filter(({ to }) => to === id));
  return branch?.result === undefined ? branch?.from : branch.id;
}

/** The nearest box to that side whose middle lies level with this one. */
function beside(placed: Placed, id: string, by: number): string | undefined {
  const here = placed.boxes.get(id);
  if (here === undefined) return undefined;
  const middle = here.y + here.height / 2;
  let nearest: string | undefined;
  let least = Infinity;
  for (const [other, { x, y, height }] of placed.boxes) {
    const distance = (x - here.x) * by;
    if (other === id || distance <= 0 || distance >= least || middle < y || middle > y + height) continue;
    [nearest, least] = [other, distance];
  }
  return nearest;
}

function likeliest<T extends { readonly share: number }>(ways: readonly T[]): T | undefined {
  return ways.reduce<T | undefined>(
    (best, way) => (best === undefined || way.share > best.share ? way : best),
    undefined,
  );
}
