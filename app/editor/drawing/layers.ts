import type { Shapes } from './placed.ts';

/** Boxes and the gaps that lines pass through, as numbered cells in layers. The first cells are the boxes, in their order. */
export interface Layers {
  /** Cells by layer, in their order from the left. */
  readonly rows: number[][];
  /** Of each cell: its layer, its width, the cells above that lead to it and those below that it leads to. */
  readonly layer: readonly number[];
  readonly width: readonly number[];
  readonly above: readonly (readonly number[])[];
  readonly below: readonly (readonly number[])[];
  readonly heights: readonly number[];
  /** By line: the gaps it passes through. */
  readonly chains: readonly (readonly number[])[];
}

const GAP = 12;

/**
 * In a graph of more boxes than `MANY`, a line that passes more layers than `LONG` goes straight, past no gaps: they would
 * outnumber the boxes many times.
 */
const MANY = 500;
const LONG = 12;

/**
 * Puts boxes in layers, each below the lowest that leads to it. Lines against the order of the boxes are on a loop and
 * are left out. Lines that pass layers on their way to the same box share one gap a layer.
 */
export function layersOf({ shapes, lines }: Shapes): Layers {
  const cellOf = new Map(shapes.map(({ id }, cell) => [id, cell]));
  const ends = lines.map(({ from, to }) => [cellOf.get(from) ?? -1, cellOf.get(to) ?? -1] as const);
  const layer = layerOfEach(shapes.length, ends);
  const width = shapes.map((shape) => shape.width);
  const above: number[][] = shapes.map(() => []);
  const below: number[][] = shapes.map(() => []);
  const gaps = new Map<string, number>();
  const link = (from: number, to: number): void => {
    if (below[from]?.includes(to) === true) return;
    below[from]?.push(to);
    above[to]?.push(from);
  };
  /** The gap in a layer on the way to a box, made when first asked for. */
  const gapAt = (row: number, to: number): number => {
    const key = `${String(row)} ${String(to)}`;
    const known = gaps.get(key);
    if (known !== undefined) return known;
    const cell = layer.push(row) - 1;
    width.push(GAP);
    above.push([]);
    below.push([]);
    gaps.set(key, cell);
    return cell;
  };
  const reach = shapes.length > MANY ? LONG : Infinity;
  const chains = ends.map(([from, to]) => {
    if (from < 0 || to <= from) return [];
    const chain: number[] = [];
    const [start, end] = [layer[from] ?? 0, layer[to] ?? 0];
    if (end - start > reach) return chain;
    for (let row = start + 1; row < end; row += 1) chain.push(gapAt(row, to));
    [from, ...chain].forEach((cell, place) => link(cell, chain[place] ?? to));
    return chain;
  });
  return { rows: rowsOf(layer), layer, width, above, below, heights: heightsOf(shapes, layer), chains };
}

/** Of each layer, the height of its highest box. */
function heightsOf(shapes: Shapes['shapes'], layer: readonly number[]): number[] {
  const heights: number[] = [];
  shapes.forEach(({ height }, cell) => {
    const row = layer[cell] ?? 0;
    heights[row] = Math.max(heights[row] ?? 0, height);
  });
  return heights;
}

/** The boxes come in an order in which lines lead onward, so one pass does. */
function layerOfEach(count: number, ends: readonly (readonly [number, number])[]): number[] {
  const next: number[][] = Array.from({ length: count }, () => []);
  for (const [from, to] of ends) if (from >= 0 && to > from) next[from]?.push(to);
  const layer = Array.from({ length: count }, () => 0);
  for (let from = 0; from < count; from += 1)
    for (const to of next[from] ?? []) layer[to] = Math.max(layer[to] ?? 0, (layer[from] ?? 0) + 1);
  return layer;
}

function rowsOf(layer: readonly number[]): number[][] {
  const rows: number[][] = [];
  layer.forEach((row, cell) => (rows[row] ??= []).push(cell));
  return rows;
}
