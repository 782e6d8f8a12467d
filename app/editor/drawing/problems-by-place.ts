import type { Problem } from '../../../trees/document/index.ts';
import type { Mark } from './drawing-props.ts';
import type { DrawnNode, Graph } from './graph.ts';

/** By box of a drawing, the problems that point into it: a step's own and its test's, a finding's own. */
export function problemsByPlace(
  graph: Graph,
  problems: readonly Problem[],
): ReadonlyMap<string, readonly Problem[]> {
  const boxes = new Map<string, string[]>();
  for (const node of graph.nodes)
    for (const at of placesOf(node)) {
      const ids = boxes.get(at);
      if (ids === undefined) boxes.set(at, [node.id]);
      else ids.push(node.id);
    }
  const found = new Map<string, Problem[]>();
  for (const problem of problems)
    for (const id of boxesAt(boxes, problem.at)) {
      const others = found.get(id);
      if (others === undefined) found.set(id, [problem]);
      else others.push(problem);
    }
  return found;
}

function placesOf(node: DrawnNode): readonly string[] {
  return node.kind === 'step' ? [node.at, `/tests/${node.test}`] : [node.at];
}

/** The boxes of the nearest place that holds the pointer. */
function boxesAt(boxes: ReadonlyMap<string, readonly string[]>, pointer: string): readonly string[] {
  for (let at = pointer; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) {
    const ids = boxes.get(at);
    if (ids !== undefined) return ids;
  }
  return [];
}

/** A revision's marks as signs, in words elsewhere. */
export const MARK_SIGNS: Readonly<Record<Mark, string>> = { added: '+', removed: '−', changed: '≠' };

/** By box, the sign of what became of it between two revisions, else of the worst that is wrong in it. */
export function signsOf(
  graph: Graph,
  problems: ReadonlyMap<string, readonly Problem[]>,
  marks: ReadonlyMap<string, Mark> | undefined,
): ReadonlyMap<string, string> {
  return new Map(
    graph.nodes.flatMap(({ id, at }): [string, string][] => {
      const mark = marks?.get(at);
      const here = problems.get(id) ?? [];
      if (mark !== undefined) return [[id, MARK_SIGNS[mark]]];
      if (here.length === 0) return [];
      return [[id, here.some(({ severity }) => severity === 'error') ? '⊘' : '△']];
    }),
  );
}
