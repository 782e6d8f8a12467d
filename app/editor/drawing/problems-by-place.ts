import type { Problem } from '../../../trees/document/index.ts';
import type { Mark } from './drawing-props.ts';
import type { Graph } from './graph.ts';

/** By box of a drawing, the problems that point into it: a step's own and its test's, a finding's own. */
export function problemsByPlace(
  graph: Graph,
  problems: readonly Problem[],
): ReadonlyMap<string, readonly Problem[]> {
  const found = new Map<string, Problem[]>();
  if (problems.length === 0) return found;
  const boxes = boxesAround(graph, problems);
  for (const problem of problems)
    for (const id of boxesAt(boxes, problem.at)) {
      const others = found.get(id);
      if (others === undefined) found.set(id, [problem]);
      else others.push(problem);
    }
  return found;
}

/** By place, the boxes there, of those places only that a problem is at or in: a drawing has thousands of others. */
function boxesAround(graph: Graph, problems: readonly Problem[]): ReadonlyMap<string, readonly string[]> {
  const boxes = new Map<string, string[]>(
    problems.flatMap(({ at }) => placesAround(at).map((place): [string, string[]] => [place, []])),
  );
  const tests = new Map<string, string[]>();
  for (const [place, ids] of boxes) if (place.startsWith(TESTS)) tests.set(place.slice(TESTS.length), ids);
  for (const node of graph.nodes) {
    boxes.get(node.at)?.push(node.id);
    if (node.kind === 'step') tests.get(node.test)?.push(node.id);
  }
  return boxes;
}

const TESTS = '/tests/';

/** A pointer and those of all that it is in, the nearest first. */
function placesAround(pointer: string): readonly string[] {
  const places: string[] = [];
  for (let at = pointer; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) places.push(at);
  return places;
}

/** The boxes of the nearest place that holds the pointer and has any. */
function boxesAt(boxes: ReadonlyMap<string, readonly string[]>, pointer: string): readonly string[] {
  const near = placesAround(pointer).find((place) => (boxes.get(place)?.length ?? 0) > 0);
  return near === undefined ? [] : (boxes.get(near) ?? []);
}

/** A revision's marks as signs, in words elsewhere. */
export const MARK_SIGNS: Readonly<Record<Mark, string>> = { added: '+', removed: '−', changed: '≠' };

/** By box, the sign of what became of it between two revisions, else of the worst that is wrong in it. */
export function signsOf(
  graph: Graph,
  problems: ReadonlyMap<string, readonly Problem[]>,
  marks: ReadonlyMap<string, Mark> | undefined,
): ReadonlyMap<string, string> {
  const signs = new Map<string, string>();
  for (const [id, here] of problems)
    signs.set(id, here.some(({ severity }) => severity === 'error') ? '⊘' : '△');
  if (marks === undefined) return signs;
  for (const { id, at } of graph.nodes) {
    const mark = marks.get(at);
    if (mark !== undefined) signs.set(id, MARK_SIGNS[mark]);
  }
  return signs;
}

/** Are all signs where they were? */
export function sameSigns(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): boolean {
  return one.size === other.size && [...one].every(([id, sign]) => other.get(id) === sign);
}
