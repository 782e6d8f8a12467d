import type { ElkNode } from 'elkjs/lib/elk-api.js';
import { ASIDE, BELOW, type Box, type Placed, type Point, type Shapes } from './placed.ts';
import { straight } from './place-graph.ts';

/**
 * How ELK's layered algorithm is to lay out a path: downwards, boxes and branches as far as may be in the order of the
 * document, so that an edit in one place leaves the rest where it was.
 */
const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.direction': 'DOWN',
  'elk.edgeRouting': 'POLYLINE',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.spacing.nodeNode': String(ASIDE),
  'elk.layered.spacing.nodeNodeBetweenLayers': String(BELOW),
  'elk.spacing.edgeNode': '20',
  'elk.spacing.edgeEdge': '14',
  'elk.layered.spacing.edgeNodeBetweenLayers': '20',
  'elk.layered.cycleBreaking.strategy': 'MODEL_ORDER',
  'elk.layered.considerModelOrder.strategy': 'PREFER_EDGES',
  'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF',
  'elk.layered.nodePlacement.bk.fixedAlignment': 'BALANCED',
  'elk.separateConnectedComponents': 'false',
};

/** The question to ELK: every line's two ends are ports at fixed places, at a foot and in the middle of a head. */
export function elkGraphOf({ shapes, lines }: Shapes): ElkNode {
  const leaving = Map.groupBy(lines, ({ from }) => from);
  return {
    id: 'path',
    layoutOptions: OPTIONS,
    children: shapes.map(({ id, width, height }) => ({
      id,
      width,
      height,
      layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
      ports: [
        port(headOf(id), 'NORTH', width / 2, 0),
        ...(leaving.get(id) ?? []).map((line) => port(footOf(line.id), 'SOUTH', line.leavesAt, height)),
      ],
    })),
    edges: lines.map(({ id, to }) => ({ id, sources: [footOf(id)], targets: [headOf(to)] })),
  };
}

/** ELK's answer as places; a line it has no way for goes straight. */
export function placedOf({ lines }: Shapes, answer: ElkNode): Placed {
  const boxes = new Map<string, Box>();
  for (const { id, x = 0, y = 0, width = 0, height = 0 } of answer.children ?? [])
    boxes.set(id, { x: Math.round(x), y: Math.round(y), width, height });
  const sections = new Map((answer.edges ?? []).map(({ id, sections: [section] = [] }) => [id, section]));
  const ways = new Map<string, readonly Point[]>();
  for (const line of lines) {
    const section = sections.get(line.id);
    const bends = section?.bendPoints ?? [];
    const [first, last] = straight(line, boxes);
    ways.set(line.id, first === undefined || last === undefined ? [] : [first, ...bends, last]);
  }
  return { boxes, ways };
}

const headOf = (id: string): string => `head of ${id}`;
const footOf = (line: string): string => `foot of ${line}`;

function port(id: string, side: 'NORTH' | 'SOUTH', x: number, y: number) {
  return { id, x, y, width: 0, height: 0, layoutOptions: { 'elk.port.side': side } };
}
