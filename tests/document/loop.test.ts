import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { loopsOf } from '../../trees/document/loop.ts';
import { checkTree } from '../../trees/document/index.ts';
import { smallDocument, treeOf } from '../support/trees.ts';
import { mustHave } from './parts.ts';

describe('the loops of a graph', () => {
  it('are one round for each set of nodes that all reach each other', () => {
    expect(loopsOf([[1], [2], [0, 3], [4], [3], [5], []])).toEqual([[0, 1, 2], [3, 4], [5]]);
  });

  it('are rounds whose every node leads to the next, and touch every node that can come back to itself', () => {
    const graph = fc.integer({ min: 1, max: 9 }).chain((count) =>
      fc.array(fc.uniqueArray(fc.nat({ max: count - 1 }), { maxLength: 3 }), {
        minLength: count,
        maxLength: count,
      }),
    );
    fc.assert(
      fc.property(graph, (onward) => {
        const rounds = loopsOf(onward);
        for (const round of rounds) {
          round.forEach((node, place) => {
            expect(onward[node]).toContain(round[(place + 1) % round.length]);
          });
        }
        const onLoop = onward.flatMap((_, node) => (reachedFrom(onward, node).has(node) ? [node] : []));
        const together = onLoop.filter((node) =>
          rounds.some(
            ([start = -1]) => reachedFrom(onward, node).has(start) && reachedFrom(onward, start).has(node),
          ),
        );
        expect(together).toEqual(onLoop);
        expect(rounds.length === 0).toBe(onLoop.length === 0);
      }),
    );
  });

  it('are found in a path of 5,000 steps without running out of stack', () => {
    const document = smallDocument();
    const steps = mustHave(document.symptoms['no-sound']?.steps);
    for (let place = 0; place < 5000; place += 1) {
      const go = place === 4999 ? 'step-0' : `step-${String(place + 1)}`;
      steps[`step-${String(place)}`] = { test: 'tone', then: { heard: { go }, silent: { go } } };
    }
    const loops = checkTree(treeOf(document)).filter(({ rule }) => rule === 'loop');
    expect(loops.map(({ at }) => at)).toEqual(['/symptoms/no-sound/steps/step-4999/then/heard/go']);
  });
});

function reachedFrom(onward: readonly (readonly number[])[], start: number): ReadonlySet<number> {
  const reached = new Set(onward[start]);
  for (const node of reached) for (const next of onward[node] ?? []) reached.add(next);
  return reached;
}
