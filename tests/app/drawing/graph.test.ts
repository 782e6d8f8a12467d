import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { authoredShares } from '../../../app/editor/drawing/authored-shares.ts';
import { graphOf, openGraphs, type DrawnStep, type Graph } from '../../../app/editor/drawing/graph.ts';
import { flows, type Tree } from '../../../trees/document/index.ts';
import { arbitraryTree } from '../../support/arbitrary-tree.ts';
import { largeTree } from '../../support/large-tree.ts';
import { smallDocument, smallTree, treeOf } from '../../support/trees.ts';

const stepsIn = (graph: Graph): readonly DrawnStep[] =>
  graph.nodes.flatMap((node) => (node.kind === 'step' ? [node] : []));

function eachGraph(check: (tree: Tree, symptom: string, graph: Graph) => void): void {
  fc.assert(
    fc.property(arbitraryTree(), (tree) => {
      for (const symptom of Object.keys(tree.symptoms)) check(tree, symptom, graphOf(tree, symptom));
    }),
  );
}

describe('a path as a graph', () => {
  it('has every step of the path once, and every branch once', () => {
    eachGraph((tree, symptom, graph) => {
      const steps = tree.symptoms[symptom]?.steps ?? {};
      expect(
        stepsIn(graph)
          .map(({ step }) => step)
          .toSorted(),
      ).toEqual(Object.keys(steps).toSorted());
      const written = Object.entries(steps).flatMap(([step, { then }]) =>
        Object.entries(then).map(([result, { go }]) => `${step} ${result} ${go}`),
      );
      const drawn = stepsIn(graph).flatMap(({ step, results }) =>
        results.flatMap(({ result, go }) => (go === undefined ? [] : [`${step} ${result} ${go}`])),
      );
      expect(drawn.toSorted()).toEqual(written.toSorted());
      // In a sound tree every branch leads somewhere, so each is a line as well.
      const lines = graph.branches.flatMap(({ kind, at }) => (kind === 'result' ? [at] : []));
      expect(new Set(lines).size).toBe(written.length);
      expect(lines).toHaveLength(written.length);
    });
  });

  it('draws every box once, and no line to a box that is not there', () => {
    eachGraph((_, __, { nodes, branches, node }) => {
      expect(new Set(nodes.map(({ id }) => id)).size).toBe(nodes.length);
      for (const { from, to } of branches) expect([node.has(from), node.has(to)]).toEqual([true, true]);
    });
  });

  it('numbers steps from 1 without a gap, each before those it leads to', () => {
    eachGraph((_, __, graph) => {
      const steps = stepsIn(graph);
      expect(steps.map(({ number }) => number)).toEqual(steps.map((___, place) => place + 1));
      for (const { from, to } of graph.branches) {
        const [one, other] = [graph.node.get(from), graph.node.get(to)];
        if (one?.kind === 'step' && one.reached && other?.kind === 'step')
          expect(one.number).toBeLessThan(other.number);
      }
    });
  });

  it('lets the whole of the units arrive, to within 1e-9, and as many leave a step as come to it', () => {
    eachGraph((_, __, graph) => {
      if (!graph.branches.some(({ kind }) => kind === 'first')) return;
      const arriving = (id: string): number =>
        graph.branches.reduce((sum, { to, share }) => (to === id ? sum + share : sum), 0);
      const ends = graph.nodes.filter(({ kind }) => kind === 'finding' || kind === 'elsewhere');
      expect(ends.reduce((sum, { id }) => sum + arriving(id), 0)).toBeCloseTo(1, 9);
      for (const { id, share } of stepsIn(graph)) expect(share).toBeCloseTo(arriving(id), 9);
    });
  });

  it('has as much arrive at a finding as the flow of the authors’ weights says, within 1e-9, where no path goes on in another', () => {
    const tree = largeTree();
    const arriving = flows(tree).arriving.get('symptom');
    const found = graphOf(tree, 'symptom').nodes.flatMap((node) => (node.kind === 'finding' ? [node] : []));
    expect(found.length).toBeGreaterThan(10);
    for (const { finding, share } of found) expect(share).toBeCloseTo(arriving?.get(finding) ?? 0, 9);
  });

  it('shows where a finding goes on when its remedy does not mend, and counts the step there as come to', () => {
    const graph = graphOf(smallTree(), Object.keys(smallTree().symptoms)[0] ?? '');
    const [line, ...others] = graph.branches.filter(({ kind }) => kind === 'otherwise');
    expect(others).toEqual([]);
    expect(line?.at).toBe(`${line?.from ?? ''}/otherwise`);
    expect(graph.node.get(line?.to ?? '')).toMatchObject({ kind: 'step', step: 'look-again', reached: true });
    expect(line?.back).toBe(false);
  });

  it('takes shares of its own where they are given', () => {
    const tree = smallTree();
    const [symptom = ''] = Object.keys(tree.symptoms);
    const shares = new Map(
      [...authoredShares(tree, symptom)].map(([step, results]) => [
        step,
        new Map([...results].map(([result]) => [result, 0.25])),
      ]),
    );
    const first = stepsIn(graphOf(tree, symptom, shares))[0];
    expect(first?.results.map(({ share }) => share)).toEqual(first?.results.map(() => 0.25));
  });

  it('gives the same drawn step again for a step that an edit elsewhere has left alone', () => {
    const tree = largeTree();
    const other = { ...tree, findings: { ...tree.findings } };
    const graphs = openGraphs();
    const [one, two] = [graphs(tree, 'symptom'), graphs(other, 'symptom')];
    expect(stepsIn(two)[5]).toBe(stepsIn(one)[5]);
  });
});

describe('a draft that is not whole yet', () => {
  const drafted = (change: (document: ReturnType<typeof smallDocument>) => void): Tree => {
    const document = smallDocument();
    change(document);
    return treeOf(document);
  };
  const [symptom = ''] = Object.keys(smallDocument().symptoms);

  it('shows steps that the start does not come to, numbered after the others', () => {
    const whole = stepsIn(graphOf(smallTree(), symptom));
    const tree = drafted((document) => {
      const path = document.symptoms[symptom];
      if (path?.steps !== undefined)
        path.steps['apart'] = { test: Object.keys(document.tests)[0] ?? '', then: {} };
    });
    const steps = stepsIn(graphOf(tree, symptom));
    expect(whole.every(({ reached }) => reached)).toBe(true);
    expect(steps.filter(({ reached }) => !reached).map(({ step }) => step)).toEqual(['apart']);
    expect(steps.at(-1)).toMatchObject({ step: 'apart', number: whole.length + 1, share: 0 });
    expect(steps.at(-1)?.results.every(({ go }) => go === undefined)).toBe(true);
  });

  it('shows a branch that leads nowhere as a loose end that says so, and a step without its test by its id', () => {
    const tree = drafted((document) => {
      const path = document.symptoms[symptom];
      if (path?.steps !== undefined)
        path.steps['odd'] = { test: 'no-such-test', then: { seen: { go: 'finding:no-such-finding' } } };
    });
    const graph = graphOf(tree, symptom);
    const odd = stepsIn(graph).find(({ step }) => step === 'odd');
    expect(odd).toMatchObject({ title: 'no-such-test', results: [{ result: 'seen', given: false }] });
    expect(graph.branches.some(({ from }) => from === odd?.id)).toBe(false);
  });

  it('draws a loop as it is written', () => {
    const tree = drafted((document) => {
      const path = document.symptoms[symptom];
      const [test = ''] = Object.keys(document.tests);
      const [result = ''] = Object.keys(document.tests[test]?.results ?? {});
      if (path === undefined) return;
      path.steps = {
        here: { test, then: { [result]: { go: 'there' } } },
        there: { test, then: { [result]: { go: 'here' } } },
      };
      path.first = 'here';
    });
    const graph = graphOf(tree, symptom);
    expect(stepsIn(graph).map(({ step, number }) => [step, number])).toEqual([
      ['here', 1],
      ['there', 2],
    ]);
    expect(graph.branches.map(({ from, to }) => [from.split('/').at(-1), to.split('/').at(-1)])).toEqual([
      [symptom, 'here'],
      ['here', 'there'],
      ['there', 'here'],
    ]);
  });

  it('is a start alone for a symptom that is not there', () => {
    expect(graphOf(smallTree(), 'constructor').nodes.map(({ kind }) => kind)).toEqual(['start']);
  });
});
