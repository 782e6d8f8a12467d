import type { Layers } from './layers.ts';

const SWEEPS = 6;

/** Orders each layer's cells by the mean place of their neighbours, down and up in turn, so that few lines cross. */
export function orderLayers({ rows, above, below }: Layers): void {
  const place = new Float64Array(above.length);
  const number = (row: readonly number[]): void =>
    row.forEach((cell, index) => {
      // Layers of different lengths are compared by how far along them a cell stands.
      place[cell] = (index + 0.5) / row.length;
    });
  rows.forEach(number);
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    const down = sweep % 2 === 0;
    const neighbours = down ? above : below;
    for (const row of down ? rows : rows.toReversed()) {
      const means = new Map(
        row.map((cell) => [cell, meanOf(neighbours[cell] ?? [], place, place[cell] ?? 0)]),
      );
      row.sort((one, other) => (means.get(one) ?? 0) - (means.get(other) ?? 0));
      number(row);
    }
  }
}

function meanOf(cells: readonly number[], place: Float64Array, otherwise: number): number {
  if (cells.length === 0) return otherwise;
  return cells.reduce((sum, cell) => sum + (place[cell] ?? 0), 0) / cells.length;
}
