import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { authoredShares, type BranchShares } from '../../../app/editor/drawing/authored-shares.ts';
import { graphOf, openGraphs, type Graph } from '../../../app/editor/drawing/graph.ts';
import { placeLayered } from '../../../app/editor/drawing/layered.ts';
import { keepStrokes, strokesOf } from '../../../app/editor/drawing/painter.ts';
import { partsOf, together } from '../../../app/editor/drawing/place-graph.ts';
import type { Placed } from '../../../app/editor/drawing/placed.ts';
import { problemsByPlace } from '../../../app/editor/drawing/problems-by-place.ts';
import { checkTree, type Tree } from '../../../trees/document/index.ts';
import { applyChanges, liveTree, type Change, type DraftDocument } from '../../../trees/edit/index.ts';
import { arbitraryDocument } from '../../support/arbitrary-tree.ts';
import type { Draw } from '../../support/draw.ts';
import { freshTree } from '../../support/fresh-tree.ts';
import { drawChanges } from '../../support/random-changes.ts';
import { drawWeight } from '../../support/random-weight.ts';
import { forgetNumbers } from './forget-numbers.ts';
import { smallDocument } from '../../support/trees.ts';

/** Any changes. */
const anything = (draw: Draw, document: DraftDocument): readonly Change[] => drawChanges(draw, document);
/** A weight, as often as not. */
const oftenAWeight = (draw: Draw, document: DraftDocument): readonly Change[] =>
  draw(fc.boolean) ? drawWeight(draw, liveTree(document).tree) : drawChanges(draw, document);

/** Runs a check on a drawn document and again after each of some random edits of it. */
function afterEachEdit(open: () => (tree: Tree) => void, drawEdit = anything): void {
  fc.assert(
    fc.property(arbitraryDocument(), fc.gen(), fc.nat({ max: 8 }), (drawn, draw, edits) => {
      const check = open();
      let document = drawn as unknown as DraftDocument;
      for (let edit = 0; edit <= edits; edit += 1) {
        check(liveTree(document).tree);
        const applied = applyChanges(document, drawEdit(draw, document));
        if (applied.ok) ({ document } = applied);
      }
    }),
    { numRuns: 60 },
  );
}

function placed(graph: Graph): Placed {
  const parts = partsOf(graph);
  return together(parts, placeLayered(parts.reached), placeLayered(parts.apart));
}

/** A path as it is drawn where nothing is remembered. */
function drawnAnew(tree: Tree, symptom: string, shares?: BranchShares): Graph {
  forgetNumbers();
  return graphOf(freshTree(tree), symptom, shares);
}

const tenths = (tree: Tree, symptom: string): BranchShares =>
  new Map(
    [...authoredShares(tree, symptom)].map(([step, results]) => [
      step,
      new Map([...results].map(([result, share]) => [result, Math.round(share * 10) / 10])),
    ]),
  );

describe('a drawing that remembers', () => {
  it('shows after any edits what one made anew shows', () => {
    afterEachEdit(() => {
      const graphs = new Map<string, ReturnType<typeof openGraphs>>();
      const shared = openGraphs();
      return (tree) => {
        for (const symptom of Object.keys(tree.symptoms)) {
          const own = graphs.get(symptom) ?? openGraphs();
          graphs.set(symptom, own);
          // One drawing stays with its path, the other goes from path to path, and from shares to shares.
          expect(own(tree, symptom)).toEqual(drawnAnew(tree, symptom));
          const shares = tenths(tree, symptom);
          expect(shared(tree, symptom, shares)).toEqual(drawnAnew(tree, symptom, shares));
        }
      };
    });
  });

  it('shows what one made anew shows while the units’ way is still that of before the edits', () => {
    let same = 0;
    afterEachEdit(() => {
      const graphs = openGraphs();
      let told: { readonly symptom: string; readonly shares: BranchShares } | undefined;
      let last: { readonly tree: Tree; readonly graph: Graph } | undefined;
      return (tree) => {
        const [symptom] = Object.keys(tree.symptoms);
        if (symptom === undefined) return;
        if (told?.symptom !== symptom) told = { symptom, shares: tenths(tree, symptom) };
        const graph = graphs(tree, symptom, told.shares);
        expect(graph).toEqual(drawnAnew(tree, symptom, told.shares));
        same += Number(last?.graph === graph && last.tree.symptoms !== tree.symptoms);
        last = { tree, graph };
      };
    }, oftenAWeight);
    // Else nothing would have been kept that could have been wrong.
    expect(same).toBeGreaterThan(20);
  });

  it('has its lines after any edits where they are made anew, among the same places and among new ones', () => {
    afterEachEdit(() => {
      const graphs = openGraphs();
      const strokes = keepStrokes();
      let where: Placed | undefined;
      let count = 0;
      return (tree) => {
        const [symptom] = Object.keys(tree.symptoms);
        if (symptom === undefined) return;
        const graph = graphs(tree, symptom);
        count += 1;
        if (where === undefined || count % 3 === 0) where = placed(graph);
        expect(strokes(graph, where)).toEqual(strokesOf(graph, where));
      };
    });
  });

  it('keeps box, line and graph where an edit changes nothing of them', () => {
    const document = smallDocument() as unknown as DraftDocument;
    const graphs = openGraphs();
    const drawn = (path: readonly string[], value: string | number): Graph => {
      const applied = applyChanges(document, [{ do: 'set', path, value }]);
      if (!applied.ok) throw new Error(applied.message);
      return graphs(liveTree(applied.document).tree, 'dark-screen');
    };
    const whole = graphs(liveTree(document).tree, 'dark-screen');
    expect(drawn(['title'], 'Another')).toBe(whole);
    expect(drawn(['tests', 'rail-in', 'ask'], 'Look.')).toBe(whole);
    const titled = drawn(['tests', 'rail-in', 'title'], 'Another');
    expect(titled.nodes.flatMap((node, at) => (node === whole.nodes[at] ? [] : [node.title]))).toEqual([
      'Another',
    ]);
    expect(titled.branches).toBe(whole.branches);
    expect(drawn(['tests', 'rail-in', 'ask'], 'Look.')).toEqual(whole);
  });
});

it('every problem is at the boxes of the nearest place around it that has any', () => {
  afterEachEdit(() => (tree) => {
    const problems = checkTree(tree);
    for (const symptom of Object.keys(tree.symptoms)) {
      const graph = graphOf(tree, symptom);
      const found = problemsByPlace(graph, problems);
      const expected = problems.map((problem) => {
        for (let at = problem.at; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) {
          const here = graph.nodes.filter(
            (node) => node.at === at || (node.kind === 'step' && `/tests/${node.test}` === at),
          );
          if (here.length > 0) return here.map(({ id }) => id).toSorted();
        }
        return [];
      });
      const placedAt = problems.map((problem) =>
        [...found].flatMap(([id, here]) => (here.includes(problem) ? [id] : [])).toSorted(),
      );
      expect(placedAt).toEqual(expected);
    }
  });
});
