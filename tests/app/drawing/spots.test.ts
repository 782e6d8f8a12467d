import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { graphOf } from '../../../app/editor/drawing/graph.ts';
import { boxAt, lineAt } from '../../../app/editor/drawing/hit.ts';
import { nearer, idsOf } from '../../../app/editor/drawing/ids.ts';
import { placeLayered } from '../../../app/editor/drawing/layered.ts';
import { spotOf, towards, type Direction } from '../../../app/editor/drawing/neighbours.ts';
import { partsOf, together } from '../../../app/editor/drawing/place-graph.ts';
import { boundsOf, type Placed } from '../../../app/editor/drawing/placed.ts';
import { problemsByPlace } from '../../../app/editor/drawing/problems-by-place.ts';
import { thickness } from '../../../app/editor/drawing/thickness.ts';
import { bringing, fitted, holding, seen, zoomed } from '../../../app/editor/drawing/view.ts';
import { resultWords } from '../../../app/editor/drawing/words.ts';
import { arbitraryTree } from '../../support/arbitrary-tree.ts';
import { smallTree } from '../../support/trees.ts';

const DIRECTIONS: readonly Direction[] = ['up', 'down', 'left', 'right'];

function placedOf(graph: ReturnType<typeof graphOf>): Placed {
  const parts = partsOf(graph);
  return together(parts, placeLayered(parts.reached), placeLayered(parts.apart));
}

describe('the arrow keys', () => {
  it('come from the start to every box and every way out that the start leads to', () => {
    fc.assert(
      fc.property(arbitraryTree(), (tree) => {
        for (const symptom of Object.keys(tree.symptoms)) {
          const graph = graphOf(tree, symptom);
          const placed = placedOf(graph);
          const met = new Set([graph.nodes[0]?.id ?? '']);
          for (const id of met) {
            const spot = spotOf(graph, id);
            if (spot === undefined) throw new Error(`${id} is no spot`);
            for (const direction of DIRECTIONS) {
              const to = towards(graph, placed, spot, direction);
              if (to !== undefined) met.add(to);
            }
          }
          const reached = graph.nodes.filter((node) => node.kind === 'step' && node.reached);
          for (const node of reached) {
            expect(met.has(node.id)).toBe(true);
            if (node.kind === 'step') for (const { at } of node.results) expect(met.has(at)).toBe(true);
          }
          const led = graph.branches.filter(({ from }) => met.has(from));
          for (const { to } of led) expect(met.has(to)).toBe(true);
        }
      }),
    );
  });
});

describe('a point of the drawing', () => {
  it('finds the box that it is in, and the branch that it is on', () => {
    const graph = graphOf(smallTree(), Object.keys(smallTree().symptoms)[0] ?? '');
    const placed = placedOf(graph);
    for (const [id, { x, y, width, height }] of placed.boxes)
      expect(boxAt(placed, { x: x + width / 3, y: y + height / 2 })).toBe(id);
    for (const [, way] of placed.ways) {
      const [from, to] = way;
      if (from === undefined || to === undefined) throw new Error('a branch without a way');
      // The middle of a bent piece lies half way between its ends.
      const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
      const found = lineAt(placed, middle, 3);
      expect(found).toBeDefined();
      expect(placed.ways.get(found ?? '')?.length).toBeGreaterThan(1);
    }
    expect(boxAt(placed, { x: -5000, y: 0 })).toBeUndefined();
    expect(lineAt(placed, { x: -5000, y: 0 }, 8)).toBeUndefined();
  });
});

describe('the view', () => {
  const pane = { width: 800, height: 500 };

  it('holds a box where it is on the screen when the path is laid out again', () => {
    const at = (x: number, y: number): Placed => ({
      boxes: new Map([['a', { x, y, width: 10, height: 10 }]]),
      ways: new Map(),
    });
    const before = { x: 30, y: 40, zoom: 0.5 };
    const after = holding('a', at(100, 200), at(340, 80), before);
    expect(after.x + 340 * after.zoom).toBeCloseTo(before.x + 100 * before.zoom, 9);
    expect(after.y + 80 * after.zoom).toBeCloseTo(before.y + 200 * before.zoom, 9);
    expect(holding('gone', at(0, 0), at(9, 9), before)).toBe(before);
  });

  it('shows the whole of what it is fitted to, and a box that it is brought to', () => {
    const box = fc.record({
      x: fc.integer({ min: -9000, max: 9000 }),
      y: fc.integer({ min: -9000, max: 9000 }),
      width: fc.integer({ min: 1, max: 9000 }),
      height: fc.integer({ min: 1, max: 9000 }),
    });
    fc.assert(
      fc.property(box, box, (one, other) => {
        const bounds = boundsOf([one, other]);
        const whole = seen(fitted(bounds, pane), pane);
        expect(whole.x).toBeLessThanOrEqual(bounds.x + 1e-6);
        expect(whole.y + whole.height).toBeGreaterThanOrEqual(bounds.y + bounds.height - 1e-6);
        const small = { ...one, width: 100, height: 60 };
        const brought = seen(bringing(small, { x: 7, y: 9, zoom: 1 }, pane), pane);
        expect(brought.x).toBeLessThanOrEqual(small.x);
        expect(brought.x + brought.width).toBeGreaterThanOrEqual(small.x + small.width);
        expect(brought.y).toBeLessThanOrEqual(small.y);
        expect(brought.y + brought.height).toBeGreaterThanOrEqual(small.y + small.height);
      }),
    );
  });

  it('zooms about the middle of the pane', () => {
    const before = { x: 13, y: -70, zoom: 0.8 };
    const after = zoomed(before, 1.25, pane);
    expect(after.zoom).toBeCloseTo(1, 9);
    expect((400 - after.x) / after.zoom).toBeCloseTo((400 - before.x) / before.zoom, 9);
    expect((250 - after.y) / after.zoom).toBeCloseTo((250 - before.y) / before.zoom, 9);
  });
});

describe('a branch’s width', () => {
  it('grows from 1 to 9 pixels with the square root of the share', () => {
    expect([0, 0.25, 1].map(thickness)).toEqual([1, 5, 9]);
    expect([-1, 2].map(thickness)).toEqual([1, 9]);
  });
});

describe('elements', () => {
  it('come and go some at a time until they are those wanted, the urgent ones at once', () => {
    const ids = (from: number, to: number) => Array.from({ length: to - from }, (_, at) => String(from + at));
    const wanted = idsOf(ids(20, 60));
    let now = idsOf(ids(0, 40));
    const first = nearer(now, wanted, ['59']);
    expect(first.has('59')).toBe(true);
    for (let turn = 0; turn < 60; turn += 1) {
      const next = nearer(now, wanted, ['59']);
      expect([...next].filter((id) => !now.has(id)).length).toBeLessThanOrEqual(4);
      if (next === now) break;
      now = next;
    }
    expect([...now].toSorted()).toEqual([...wanted].toSorted());
  });
});

describe('what is said of the drawing', () => {
  it('names a branch by its step, its result and where it leads', () => {
    const tree = smallTree();
    const [symptom = ''] = Object.keys(tree.symptoms);
    const graph = graphOf(tree, symptom);
    const step = graph.nodes.find((node) => node.kind === 'step');
    if (step?.kind !== 'step') throw new Error('no step');
    const [result] = step.results;
    if (result === undefined) throw new Error('no result');
    const words = resultWords(graph, step, result);
    expect(words).toMatch(
      new RegExp(`^Step 1, ${step.title}, ${result.title} to (step|finding|path) .+, \\d+.% of units$`),
    );
    const { at, title, share, given } = result;
    expect(resultWords(graph, step, { at, result: result.result, title, share, given })).toContain(
      'leads to nothing yet',
    );
  });

  it('puts a problem at the step or finding that it is in, and one of a test at every step that makes it', () => {
    const tree = smallTree();
    const [symptom = ''] = Object.keys(tree.symptoms);
    const graph = graphOf(tree, symptom);
    const steps = graph.nodes.flatMap((node) => (node.kind === 'step' ? [node] : []));
    const [first] = steps;
    const at = (place: string) => ({
      severity: 'error' as const,
      rule: 'r',
      at: place,
      message: 'm',
      help: 'h',
    });
    const problems = [
      at(`${first?.at ?? ''}/then/x/go`),
      at(`/tests/${first?.test ?? ''}/minutes`),
      at('/title'),
    ];
    const found = problemsByPlace(graph, problems);
    expect(found.get(first?.id ?? '')?.map((problem) => problem.at)).toEqual(
      problems.slice(0, 2).map((problem) => problem.at),
    );
    const making = steps.filter(({ test }) => test === first?.test).map(({ id }) => id);
    expect([...found.keys()].toSorted()).toEqual(making.toSorted());
  });
});
