import type { DrawnBranch, DrawnNode, Graph } from './graph.ts';
import { boxAround } from './hit.ts';
import { sameShape, wayOf } from './place-graph.ts';
import type { Box, Placed, Point } from './placed.ts';
import { thickness } from './thickness.ts';
import { overlap, seen, type Pane, type Viewport } from './view.ts';
import { bendOf } from './way-path.ts';

/** Colours and typeface as the canvas takes them, read from the tokens. */
export interface Inks {
  readonly ground: string;
  readonly raised: string;
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly copper: string;
  readonly font: string;
  readonly words: string;
}

export interface Painting {
  readonly graph: Graph;
  readonly placed: Placed;
  readonly viewport: Viewport;
  readonly pane: Pane;
  readonly inks: Inks;
  /** Boxes that stand over the canvas already. */
  readonly mounted: ReadonlySet<string>;
  /** Branches drawn strongly. */
  readonly strong: ReadonlySet<string>;
  readonly pointed: string | undefined;
  /** A sign in the corner of a painted box: for what is wrong in it, or what became of it. */
  readonly signs: ReadonlyMap<string, string>;
}

/** Line and box of each branch, ready to be painted many times a second. */
export interface Stroke {
  readonly branch: DrawnBranch;
  readonly way: readonly Point[];
  readonly around: Box;
}

/** The branches that have a way, with the box around it. To be made once a placement, not once a picture. */
export function strokesOf(graph: Graph, placed: Placed): readonly Stroke[] {
  return graph.branches.flatMap((branch) => {
    const way = wayOf(graph, placed, branch);
    return way.length < 2 ? [] : [{ branch, way, around: boxAround(way) }];
  });
}

/** {@link strokesOf}, which gives what it gave before as long as neither places nor lines have changed, and only changes what has. */
export function keepStrokes(): typeof strokesOf {
  let last:
    { readonly graph: Graph; readonly placed: Placed; readonly strokes: readonly Stroke[] } | undefined;
  return (graph, placed) => {
    const sameWays = last?.placed === placed && sameShape(last.graph, graph) && samePlaces(last.graph, graph);
    const strokes = last !== undefined && sameWays ? restroked(last, graph) : strokesOf(graph, placed);
    last = { graph, placed, strokes };
    return strokes;
  };
}

/** Do all branches leave their boxes where they did? */
function samePlaces(one: Graph, other: Graph): boolean {
  return (
    one.branches === other.branches ||
    one.branches.every(({ place }, index) => place === other.branches[index]?.place)
  );
}

/** The same ways, with the branches as they are now. */
function restroked(
  { graph: former, strokes }: { readonly graph: Graph; readonly strokes: readonly Stroke[] },
  graph: Graph,
): readonly Stroke[] {
  if (graph.branches === former.branches) return strokes;
  const changed = new Map(
    graph.branches.flatMap((branch, index) => {
      const before = former.branches[index];
      return before === undefined || before === branch ? [] : [[before, branch] as const];
    }),
  );
  return strokes.map((stroke) => {
    const branch = changed.get(stroke.branch);
    return branch === undefined ? stroke : { ...stroke, branch };
  });
}

/** Paints the branches, and those boxes that are not there as elements: simply, with their number where it can be read. */
export function paint(
  context: CanvasRenderingContext2D,
  painting: Painting,
  strokes: readonly Stroke[],
): void {
  const { viewport, pane, inks } = painting;
  const { x, y, zoom } = viewport;
  const scale = context.canvas.width / Math.max(1, pane.width);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = inks.ground;
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
  context.setTransform(zoom * scale, 0, 0, zoom * scale, x * scale, y * scale);
  const view = seen(viewport, pane);
  context.lineCap = 'butt';
  for (const stroke of strokes) if (overlap(stroke.around, view)) paintStroke(context, painting, stroke);
  paintBoxes(context, painting, view);
}

function paintStroke(context: CanvasRenderingContext2D, painting: Painting, { branch, way }: Stroke): void {
  const { inks, viewport, strong, pointed } = painting;
  const isStrong = strong.has(branch.id);
  const colour = isStrong ? inks.copper : branch.id === pointed ? inks.ink : inks.soft;
  context.strokeStyle = colour;
  // Never so thin that it is lost, whatever the zoom.
  context.lineWidth = Math.max(thickness(branch.share) + (isStrong ? 2 : 0), 0.6 / viewport.zoom);
  context.setLineDash(branch.kind === 'otherwise' ? [3, 6] : branch.given ? [] : [10, 6]);
  trace(context, way, viewport.zoom);
  if (viewport.zoom <= SIMPLE) return;
  context.fillStyle = colour;
  arrow(context, thickness(branch.share), way.at(-1));
}

/** Below this zoom a bent line cannot be told from a straight one, and straight ones are painted sooner. */
const SIMPLE = 0.12;

function trace(context: CanvasRenderingContext2D, way: readonly Point[], zoom: number): void {
  context.beginPath();
  way.forEach(({ x, y }, index) => {
    const before = way[index - 1];
    if (before === undefined) context.moveTo(x, y);
    else if (zoom <= SIMPLE) context.lineTo(x, y);
    else {
      const bend = bendOf(before.y, y);
      context.bezierCurveTo(before.x, before.y + bend, x, y - bend, x, y);
    }
  });
  context.stroke();
}

function arrow(context: CanvasRenderingContext2D, width: number, end: Point | undefined): void {
  if (end === undefined) return;
  const half = 4 + width / 2;
  context.beginPath();
  context.moveTo(end.x, end.y);
  context.lineTo(end.x - half, end.y - 1.6 * half);
  context.lineTo(end.x + half, end.y - 1.6 * half);
  context.fill();
}

/** Says over the boxes that the start does not come to what they are. */
function paintApart(context: CanvasRenderingContext2D, inks: Inks, apart: Box | undefined): void {
  if (apart === undefined) return;
  context.fillStyle = inks.soft;
  context.textAlign = 'left';
  context.textBaseline = 'bottom';
  context.font = `20px ${inks.words}`;
  context.fillText('Not come to from the start', apart.x, apart.y - 16);
}

function paintBoxes(context: CanvasRenderingContext2D, painting: Painting, view: Box): void {
  const { graph, placed, viewport, mounted, inks } = painting;
  const { zoom } = viewport;
  paintApart(context, inks, placed.apart);
  context.setLineDash([]);
  context.lineWidth = Math.max(1, 0.8 / zoom);
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  for (const [id, box] of placed.boxes) {
    if (mounted.has(id) || !overlap(box, view)) continue;
    const node = graph.node.get(id);
    if (node === undefined) continue;
    paintBox(context, painting, node, box);
  }
}

/** A plain box, with a step's number and a finding's heavy edge as its element has them. */
function paintBox(
  context: CanvasRenderingContext2D,
  { inks, viewport, signs }: Painting,
  node: DrawnNode,
  box: Box,
): void {
  const { x, y, width, height } = box;
  context.fillStyle = inks.raised;
  context.strokeStyle = node.kind === 'step' && !node.reached ? inks.rule : inks.ink;
  context.fillRect(x, y, width, height);
  context.strokeRect(x, y, width, height);
  context.fillStyle = inks.ink;
  if (node.kind === 'finding') context.fillRect(x, y, Math.max(8, 2 / viewport.zoom), height);
  if (height * viewport.zoom < LEGIBLE) return;
  paintSign(context, inks, signs.get(node.id), box);
  if (node.kind !== 'step') return;
  context.font = `${String(Math.round(height * 0.6))}px ${inks.font}`;
  context.fillText(String(node.number), x + width / 2, y + height / 2);
}

function paintSign(context: CanvasRenderingContext2D, inks: Inks, sign: string | undefined, box: Box): void {
  if (sign === undefined) return;
  context.font = `${String(Math.round(box.height * 0.4))}px ${inks.font}`;
  context.fillText(sign, box.x + box.width - box.height * 0.25, box.y + box.height * 0.28);
}

/** Boxes lower than this on the screen have no number. */
const LEGIBLE = 12;
