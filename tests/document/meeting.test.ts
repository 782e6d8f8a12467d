import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { destination, meetingsOf, type Tree } from '../../trees/document/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { forkedDocument, forkedTree } from '../support/forked-tree.ts';
import { treeOf } from '../support/trees.ts';
import { mustHave, stepOf } from './parts.ts';

const START = { symptom: 'one', step: 'start' };

function metAfter(start: typeof START, answered: readonly string[], tree = forkedTree()): string | undefined {
  return meetingsOf(tree)(start, (test) => answered.includes(test))?.step;
}

describe('the step where a path is met again after one that is left out', () => {
  it.each<[string, readonly string[], string]>([
    ['the next one, where that has an answer', ['second'], 'left'],
    ['one further down, past those without an answer', ['fourth'], 'deep'],
    ['no further than the first with an answer', ['second', 'fourth'], 'left'],
    ['the one that most flow comes to', ['second', 'third'], 'left'],
    ['one in another symptom’s path', ['fifth'], 'other'],
    ['the first in onward order of those that as much flow comes to', ['third', 'fourth'], 'right'],
  ])('is %s', (_, answered, met) => {
    expect(metAfter(START, answered)).toBe(met);
  });

  it('adds up what flow comes to it by several ways', () => {
    const document = forkedDocument();
    const first = stepOf(document, 'one', 'left').then;
    mustHave(first['yes']).weight = 1;
    mustHave(first['no']).weight = 1;
    mustHave(first['no']).go = 'symptom:two';
    // By way of left 3/8 come to deep, and to other 3/8 and by way of right 1/8 more.
    expect(metAfter(START, ['fourth', 'fifth'], treeOf(document))).toBe('other');
  });

  it('can be one that only branches of weight zero lead to', () => {
    const document = forkedDocument();
    mustHave(stepOf(document, 'one', 'start').then['no']).weight = 0;
    expect(metAfter(START, ['third'], treeOf(document))).toBe('right');
    expect(metAfter(START, ['second', 'third'], treeOf(document))).toBe('left');
  });

  it('is none where no step that follows has an answer, whatever those before it have', () => {
    expect(metAfter(START, [])).toBeUndefined();
    expect(metAfter({ symptom: 'one', step: 'left' }, ['first', 'second', 'third', 'fifth'])).toBeUndefined();
  });

  it('is, on random trees, one that no other gets more flow than by walking every way there is (to 1e-9)', () => {
    let met = 0;
    fc.assert(
      fc.property(arbitraryTree(), fc.nat(999), fc.nat(999), (tree, which, answers) => {
        const steps = Object.entries(tree.symptoms).flatMap(([symptom, path]) =>
          Object.keys(path.steps).map((step) => ({ symptom, step })),
        );
        const from = steps[which % Math.max(1, steps.length)];
        if (from === undefined) return;
        const { test: left } = mustHave(tree.symptoms[from.symptom]?.steps[from.step]);
        const answered = new Set(
          Object.keys(tree.tests).filter((test, at) => test !== left && (answers >> at) & 1),
        );
        const place = meetingsOf(tree)(from, (test) => answered.has(test));
        const flow = flowMet(tree, from, answered);
        expect(place === null).toBe(flow.size === 0);
        if (place === null) return;
        met += 1;
        const most = Math.max(...flow.values());
        expect(mustHave(flow.get(`${place.symptom}/${place.step}`))).toBeGreaterThanOrEqual(most - 1e-9);
      }),
      { numRuns: 300 },
    );
    expect(met).toBeGreaterThan(30);
  });
});

/** The flow that comes from a step to the answered steps met first, by walking down every way separately. */
function flowMet(tree: Tree, from: typeof START, answered: ReadonlySet<string>): ReadonlyMap<string, number> {
  const met = new Map<string, number>();
  const walk = (symptom: string, step: string, flow: number, isFirst: boolean): void => {
    const { test, then } = mustHave(tree.symptoms[symptom]?.steps[step]);
    const key = `${symptom}/${step}`;
    if (!isFirst && answered.has(test)) {
      met.set(key, (met.get(key) ?? 0) + flow);
      return;
    }
    const total = Object.values(then).reduce((sum, { weight }) => sum + weight, 0);
    for (const { go, weight } of Object.values(then)) {
      const place = destination(go, symptom);
      const onward = total > 0 ? (flow * weight) / total : 0;
      const next = place.kind === 'symptom' ? tree.symptoms[place.symptom]?.first : undefined;
      if (place.kind === 'step') walk(place.symptom, place.step, onward, false);
      if (place.kind === 'symptom' && next !== undefined) walk(place.symptom, next, onward, false);
    }
  };
  walk(from.symptom, from.step, 1, true);
  return met;
}
