import type { DrawnBranch, Graph } from './graph.ts';
import { boxAround } from './hit.ts';
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
}

export interface Painting {
  readonly graph: Graph;
  readonly placed: Placed;
  readonly viewport: Viewport;
  readonly pane: Pane;
  readonly inks: Inks;
  /** Boxes that stand over the canvas already. */
  readonly mounted: ReadonlySet<string>;
  /** Branches drawn strongly: those chosen and the one pointed at. */
  readonly strong: ReadonlySet<string>;
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
    const way = placed.ways.get(branch.id) ?? [];
    return way.length < 2 ? [] : [{ branch, way, around: boxAround(way) }];
  });
}

/** Paints the branches, and those boxes that are not there as elements: simply, with their number where it can be read. */
export function paint(
  context: CanvasRenderingContext2D,
  painting: Painting,
  strokes: readonly Stroke[],
): void {
  const { viewport, pane, inks, strong } = painting;
  const { x, y, zoom } = viewport;
  const scale = context.canvas.width / Math.max(1, pane.width);
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = inks.ground;
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
  context.setTransform(zoom * scale, 0, 0, zoom * scale, x * scale, y * scale);
  const view = seen(viewport, pane);
  context.lineCap = 'butt';
  for (const stroke of strokes) {
    if (!overlap(stroke.around, view)) continue;
    const isStrong = strong.has(stroke.branch.id);
    context.strokeStyle = isStrong ? inks.copper : inks.soft;
    // Never so thin that it is lost, whatever the zoom.
    context.lineWidth = Math.max(thickness(stroke.branch.share) + (isStrong ? 2 : 0), 0.6 / zoom);
    context.setLineDash(stroke.branch.given ? [] : [8, 6]);
    trace(context, stroke.way, zoom);
    if (zoom > SIMPLE) arrow(context, stroke);
  }
  paintBoxes(context, painting, view);
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

function arrow(context: CanvasRenderingContext2D, { branch, way }: Stroke): void {
  const end = way.at(-1);
  if (end === undefined) return;
  const half = 4 + thickness(branch.share) / 2;
  context.fillStyle = context.strokeStyle;
  context.beginPath();
  context.moveTo(end.x, end.y);
  context.lineTo(end.x - half, end.y - 1.6 * half);
  context.lineTo(end.x + half, end.y - 1.6 * half);
  context.fill();
}

function paintBoxes(context: CanvasRenderingContext2D, painting: Painting, view: Box): void {
  const { graph, placed, viewport, inks, mounted } = painting;
  const { zoom } = viewport;
  context.setLineDash([]);
  context.lineWidth = Math.max(1, 0.8 / zoom);
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  for (const [id, box] of placed.boxes) {
    if (mounted.has(id) || !overlap(box, view)) continue;
    const node = graph.node.get(id);
    if (node === undefined) continue;
    const isStep = node.kind === 'step';
    context.fillStyle = node.kind === 'finding' ? inks.ink : inks.raised;
    context.strokeStyle = isStep && !node.reached ? inks.rule : inks.ink;
    context.fillRect(box.x, box.y, box.width, box.height);
    context.strokeRect(box.x, box.y, box.width, box.height);
    if (!isStep || box.height * zoom < 12) continue;
    context.fillStyle = inks.ink;
    context.font = `${String(Math.round(box.height * 0.6))}px ${inks.font}`;
    context.fillText(String(node.number), box.x + box.width / 2, box.y + box.height / 2);
  }
}
