import { layersOf, type Layers } from './layers.ts';
import { orderLayers } from './layer-order.ts';
import { spreadLayers } from './layer-spread.ts';
import { straight } from './place-graph.ts';
import { BELOW, type Box, type Placed, type Point, type Shapes } from './placed.ts';

/**
 * A layered placement of our own for graphs that the layout library takes too long for: each box one layer below the lowest that
 * leads to it, layers ordered by the means of their neighbours' places, boxes then moved towards the middle of their
 * neighbours as far as there is room. Lines that pass layers do so between the boxes, those to one box together.
 * Takes steps x sweeps, so 2,000 steps take some tens of milliseconds.
 */
export function placeLayered(shapes: Shapes): Placed {
  const layers = layersOf(shapes);
  orderLayers(layers);
  const left = spreadLayers(layers);
  const tops = topsOf(layers);
  const boxes = new Map<string, Box>();
  shapes.shapes.forEach((shape, cell) => {
    const y = tops[layers.layer[cell] ?? 0] ?? 0;
    boxes.set(shape.id, { x: left[cell] ?? 0, y, width: shape.width, height: shape.height });
  });
  const ways = new Map<string, readonly Point[]>();
  shapes.lines.forEach((line, index) => {
    const ends = straight(line, boxes);
    const bends = (layers.chains[index] ?? []).flatMap((cell) => {
      const layer = layers.layer[cell] ?? 0;
      const [x, y] = [left[cell] ?? 0, tops[layer] ?? 0];
      return [
        { x, y },
        { x, y: y + (layers.heights[layer] ?? 0) },
      ];
    });
    ways.set(line.id, [...ends.slice(0, 1), ...bends, ...ends.slice(1)]);
  });
  return { boxes, ways };
}

function topsOf({ heights }: Layers): readonly number[] {
  let top = 0;
  return heights.map((height) => {
    const here = top;
    top += height + BELOW;
    return here;
  });
}
