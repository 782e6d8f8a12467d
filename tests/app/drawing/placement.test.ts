import ELK from 'elkjs/lib/elk.bundled.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { elkGraphOf, placedOf } from '../../../app/editor/drawing/elk-graph.ts';
import { graphOf, type Graph } from '../../../app/editor/drawing/graph.ts';
import { placeLayered } from '../../../app/editor/drawing/layered.ts';
import { partsOf, sameShape, together } from '../../../app/editor/drawing/place-graph.ts';
import type { Box, Placed, Shapes } from '../../../app/editor/drawing/placed.ts';
import { sizeOf } from '../../../app/editor/drawing/size.ts';
import type { Tree } from '../../../trees/document/index.ts';
import { arbitraryTree } from '../../support/arbitrary-tree.ts';
import { largeTree } from '../../support/large-tree.ts';
import { smallDocument, treeOf } from '../../support/trees.ts';

type PlaceShapes = (shapes: Shapes) => Placed | Promise<Placed>;
const elk = new ELK();
const byElk: PlaceShapes = async (shapes) => placedOf(shapes, await elk.layout(elkGraphOf(shapes)));

async function placed(graph: Graph, place: PlaceShapes): Promise<Placed> {
  const parts = partsOf(graph);
  return together(parts, await place(parts.reached), await place(parts.apart));
}

const graphs = (tree: Tree): readonly Graph[] =>
  Object.keys(tree.symptoms).map((symptom) => graphOf(tree, symptom));

/** Compared within a layer's height only, so that it stays quick for thousands of boxes. */
function expectNoOverlap(boxes: ReadonlyMap<string, Box>): void {
  const sorted = [...boxes].toSorted(([, a], [, b]) => a.y - b.y || a.x - b.x);
  sorted.forEach(([id, box], at) => {
    for (let next = at + 1; next < sorted.length; next += 1) {
      const [otherId, other] = sorted[next] ?? ['', box];
      if (other.y >= box.y + box.height) break;
      const apart = other.x >= box.x + box.width || box.x >= other.x + other.width;
      if (!apart) expect.fail(`${id} lies over ${otherId}`);
    }
  });
}

function expectPlaced(graph: Graph, { boxes, ways }: Placed): void {
  expect([...boxes.keys()].toSorted()).toEqual(graph.nodes.map(({ id }) => id).toSorted());
  for (const node of graph.nodes) expect(boxes.get(node.id)).toMatchObject(sizeOf(node));
  expectNoOverlap(boxes);
  for (const { id, from, to } of graph.branches) {
    const [foot, head] = [boxes.get(from), boxes.get(to)];
    const way = ways.get(id) ?? [];
    if (foot === undefined || head === undefined) throw new Error('a line without its boxes');
    expect(way[0]?.y).toBe(foot.y + foot.height);
    expect(way.at(-1)).toEqual({ x: head.x + head.width / 2, y: head.y });
    expect(way[0]?.x).toBeGreaterThan(foot.x);
    expect(way[0]?.x).toBeLessThan(foot.x + foot.width);
  }
}

/** Every line inside what is laid out together leads down. */
function expectDownward(graph: Graph, { boxes, ways }: Placed): void {
  const between = new Set(partsOf(graph).between.map(({ id }) => id));
  for (const { id, from, to } of graph.branches) {
    if (between.has(id)) continue;
    const [foot, head] = [boxes.get(from), boxes.get(to)];
    expect((head?.y ?? 0) - (foot?.y ?? 0) - (foot?.height ?? 0)).toBeGreaterThan(0);
    const way = ways.get(id) ?? [];
    way.forEach(({ y }, place) => expect(y).toBeGreaterThanOrEqual(way[place - 1]?.y ?? y));
  }
}

for (const [name, place, runs] of [
  ['our own placement', placeLayered, 100],
  ['the layout library’s placement', byElk, 40],
] as const) {
  describe(name, () => {
    it('places every box once without overlap, and every branch from its result to what it leads to, downwards', async () => {
      await fc.assert(
        fc.asyncProperty(arbitraryTree(), async (tree) => {
          for (const graph of graphs(tree)) {
            const where = await placed(graph, place);
            expectPlaced(graph, where);
            expectDownward(graph, where);
          }
        }),
        { numRuns: runs },
      );
    });

    it('places a path with a loop and steps apart', async () => {
      const document = smallDocument();
      const [symptom = ''] = Object.keys(document.symptoms);
      const [test = ''] = Object.keys(document.tests);
      const [one = '', two = ''] = Object.keys(document.tests[test]?.results ?? {});
      const path = document.symptoms[symptom];
      if (path === undefined) throw new Error('no symptom');
      path.first = 'a';
      path.steps = {
        a: { test, then: { [one]: { go: 'b' }, [two]: { go: 'a' } } },
        b: { test, then: { [one]: { go: 'a' } } },
        c: { test, then: { [one]: { go: 'b' }, [two]: { go: 'd' } } },
        d: { test, then: {} },
      };
      const graph = graphOf(treeOf(document), symptom);
      const where = await placed(graph, place);
      expectPlaced(graph, where);
      const right = Math.max(...['a', 'b'].map((id) => edgeOf(where, symptom, id)));
      expect(where.apart?.x).toBeGreaterThan(right);
      expect(where.boxes.get(`/symptoms/${symptom}/steps/d`)?.x).toBeGreaterThan(right);
    });
  });
}

const edgeOf = ({ boxes }: Placed, symptom: string, step: string): number => {
  const box = boxes.get(`/symptoms/${symptom}/steps/${step}`);
  return box === undefined ? Infinity : box.x + box.width;
};

describe('a path of 2,000 steps', () => {
  it('is placed by our own placement without overlap and downwards', async () => {
    const graph = graphOf(largeTree(), 'symptom');
    const where = await placed(graph, placeLayered);
    expectPlaced(graph, where);
    expectDownward(graph, where);
  });
});

describe('whether a path has to be laid out again', () => {
  it('is said of another lead, another step and another result, and not of other words or weights', () => {
    const base = smallDocument();
    const [symptom = ''] = Object.keys(base.symptoms);
    const edited = (change: (document: typeof base) => void): Graph => {
      const document = smallDocument();
      change(document);
      return graphOf(treeOf(document), symptom);
    };
    const graph = edited(() => undefined);
    const [step = ''] = Object.keys(base.symptoms[symptom]?.steps ?? {});
    const then = base.symptoms[symptom]?.steps?.[step]?.then ?? {};
    const [result = ''] = Object.keys(then);
    const branchIn = (document: typeof base) => document.symptoms[symptom]?.steps?.[step]?.then[result];
    const words = edited((document) => {
      for (const test of Object.values(document.tests)) test.title = 'Other words';
      const branch = branchIn(document);
      if (branch !== undefined) branch.weight = 91;
    });
    const led = edited((document) => {
      const branch = branchIn(document);
      const other = Object.keys(document.findings).find((finding) => branch?.go !== `finding:${finding}`);
      if (branch !== undefined) branch.go = `finding:${other ?? ''}`;
    });
    const unlinked = edited((document) => {
      delete document.symptoms[symptom]?.steps?.[step]?.then[result];
    });
    expect([words, led, unlinked].map((other) => sameShape(graph, other))).toEqual([true, false, false]);
  });
});
