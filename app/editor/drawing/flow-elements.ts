import { Position, type Edge, type Node } from '@xyflow/svelte';
import type { Problem } from '../../../trees/document/index.ts';
import type { Mark } from './drawing-props.ts';
import type { DrawnBranch, DrawnNode } from './graph.ts';
import type { Box, Point } from './placed.ts';
import { leavesAt, RESULT_HEIGHT } from './size.ts';
import { nodeWords } from './words.ts';

/** How a box is shown just now. */
export interface NodeState {
  readonly node: DrawnNode;
  /** What a step's ways out are called when they are announced, in their order. */
  readonly ways: readonly string[];
  readonly chosen: boolean;
  /** The id in it that the keyboard stands on; undefined where it stands elsewhere. */
  readonly current: string | undefined;
  readonly worst: Problem['severity'] | undefined;
  readonly problems: number;
  readonly marks: ReadonlyMap<string, Mark> | undefined;
  readonly readonly: boolean;
}

export type FlowNode = Node<{ readonly state: NodeState }>;
export type FlowBranch = Edge<{
  readonly branch: DrawnBranch;
  readonly way: readonly Point[];
  readonly readonly: boolean;
}>;

/** What kind of box it is, as it is announced after its name. */
const ROLE_WORDS = {
  start: 'start of the path',
  step: 'step',
  finding: 'finding',
  elsewhere: 'lead into another path',
};

/** A box as an element. Its size and handles are told, so that nothing waits for being measured. */
export function flowNodeOf(state: NodeState, box: Box): FlowNode {
  const { node, current } = state;
  const { x, y, width, height } = box;
  return {
    id: node.id,
    type: node.kind,
    position: { x, y },
    width,
    height,
    measured: { width, height },
    handles: handlesOf(node, box),
    data: { state },
    ariaRole: 'group',
    ariaLabel: `${nodeWords(node)}${problemWords(state)}`,
    domAttributes: {
      tabIndex: current === node.id ? 0 : -1,
      'data-spot': node.id,
      'aria-roledescription': ROLE_WORDS[node.kind],
      'aria-current': state.chosen ? 'true' : undefined,
    } as NonNullable<FlowNode['domAttributes']>,
  };
}

/** How many problems a box has, as the end of a sentence. */
export function problemWords({ problems, worst }: NodeState): string {
  if (problems === 0 || worst === undefined) return '';
  const word = worst === 'error' ? 'problem' : 'warning';
  return `, ${String(problems)} ${word}${problems === 1 ? '' : 's'}`;
}

function handlesOf(node: DrawnNode, { width, height }: Box): NonNullable<FlowNode['handles']> {
  const size = { width: 1, height: 1 };
  const head = { id: 'head', type: 'target' as const, position: Position.Top, x: width / 2, y: 0, ...size };
  const ways =
    node.kind === 'step' ? node.results.map(({ result }) => result) : node.kind === 'start' ? ['first'] : [];
  const feet = ways.map((id, place) => ({
    id,
    type: 'source' as const,
    position: Position.Bottom,
    x: leavesAt(node, { place }),
    y: height - (node.kind === 'step' ? RESULT_HEIGHT : 0),
    ...size,
  }));
  return node.kind === 'start' ? feet : [head, ...feet];
}

/** A chosen branch as an element over its painted line, with an end that can be taken elsewhere. */
export function flowBranchOf(
  branch: DrawnBranch,
  way: readonly Point[],
  words: string,
  readonly: boolean,
): FlowBranch {
  return {
    id: branch.id,
    type: 'branch',
    source: branch.from,
    target: branch.to,
    sourceHandle: branch.result ?? 'first',
    targetHandle: 'head',
    data: { branch, way, readonly },
    ariaRole: 'img',
    ariaLabel: words,
    focusable: false,
  };
}

/** {@link flowNodeOf}, which gives the same element again as long as nothing of it has changed, so that nothing is drawn anew. */
export function keepFlowNodes(): (state: NodeState, box: Box) => FlowNode {
  const kept = new Map<string, { readonly state: NodeState; readonly box: Box; readonly flow: FlowNode }>();
  return (state, box) => {
    const before = kept.get(state.node.id);
    if (before !== undefined && before.box === box && alike(before.state, state)) return before.flow;
    const flow = flowNodeOf(state, box);
    kept.set(state.node.id, { state, box, flow });
    return flow;
  };
}

function alike(one: NodeState, other: NodeState): boolean {
  const { ways, ...rest } = one;
  return (
    (Object.keys(rest) as (keyof typeof rest)[]).every((key) => rest[key] === other[key]) &&
    ways.length === other.ways.length &&
    ways.every((words, place) => words === other.ways[place])
  );
}
