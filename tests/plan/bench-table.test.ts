import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chainsTo } from '../../trees/chart/changeover.ts';
import { firstSituation, isOpen } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { benchTable, type BenchView } from '../../trees/plan/bench-table.ts';
import { planExact, type PlanQuestion } from '../../trees/plan/index.ts';
import { arbitraryQuestion, questionOf } from '../support/arbitrary-plan.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { treeOf } from '../support/trees.ts';

/** Sums of the same minutes in another order. */
const TOLERANCE = 1e-9;

/** Stars with up to three axes, and small benches with two ways to a state. */
function arbitraryBench(): fc.Arbitrary<Tree> {
  const drawn = arbitraryQuestion({ goal: 'fix', certain: true });
  return fc.oneof(
    arbitraryTree(),
    drawn.map(({ document }) => treeOf(document)),
  );
}

/** Every two states of every axis, by name and by number. */
function pairsOf({ bench }: Tree) {
  return Object.entries(bench).flatMap(([axis, { states }], at) => {
    const names = Object.keys(states);
    return names.flatMap((from, i) => names.map((to, j) => ({ axis, at, from, to, i, j })));
  });
}

test('without interlocks a chain takes the minutes of the chart’s own, within 1e-9', () => {
  fc.assert(
    fc.property(arbitraryBench(), (drawn) => {
      const tree = { ...drawn, interlocks: [] };
      const view = benchTable(tree).view([]);
      const start = firstSituation(tree, Object.keys(tree.symptoms)[0] ?? '');
      for (const { axis, at, from, to, i, j } of pairsOf(tree)) {
        const chains = chainsTo(tree, { ...start, bench: { ...start.bench, [axis]: from } }, { [axis]: to });
        const minutes = chains
          ?.flatMap(({ changes }) => changes)
          .reduce((sum, change) => sum + change.minutes, 0);
        expect(Math.abs(view.minutes(at, i, j) - (minutes ?? Infinity))).toBeLessThanOrEqual(TOLERANCE);
      }
    }),
  );
});

test('with interlocks shut no chain enters a barred state, and none that does not is shorter, within 1e-9', () => {
  let barred = 0;
  fc.assert(
    fc.property(arbitraryBench(), fc.nat(3), (tree, which) => {
      const shut = tree.interlocks.flatMap((_, lock) => ((which >> lock) & 1 ? [lock] : []));
      const view = benchTable(tree).view(shut);
      for (const { axis, at, from, to, i, j } of pairsOf(tree)) {
        const isBarred = (state: string) =>
          shut.some((lock) => tree.interlocks[lock]?.change[axis] === state);
        expect(view.isBarred(at, j)).toBe(isBarred(to));
        const least = leastMinutes(tree, axis, from, to, (state) => !isBarred(state));
        if (least === Infinity) barred += 1;
        expect(
          view.minutes(at, i, j) === least || Math.abs(view.minutes(at, i, j) - least) <= TOLERANCE,
        ).toBe(true);
        checkWayOut(tree, view, { axis, at, from, i }, isBarred);
      }
    }),
    { numRuns: 300 },
  );
  expect(barred).toBeGreaterThan(20);
});

test('a state counts as safe just when every other state of its axis leads to it with all interlocks shut', () => {
  fc.assert(
    fc.property(arbitraryBench(), (tree) => {
      const table = benchTable(tree);
      for (const { axis, at, to, j } of pairsOf(tree)) {
        const isFree = (state: string) => tree.interlocks.every(({ change }) => change[axis] !== state);
        const all = Object.keys(tree.bench[axis]?.states ?? {});
        const isSafe =
          isFree(to) && all.every((from) => leastMinutes(tree, axis, from, to, isFree) < Infinity);
        expect(table.isSafe(at, j)).toBe(isSafe);
      }
    }),
  );
});

test.each(['isolate', 'fix'] as const)(
  'goal %s: the exact plan names no act first whose bench state is barred now',
  (goal) => {
    let shut = 0;
    const property = fc.property(arbitraryQuestion({ goal, certain: true }), (drawn) => {
      const question = questionOf(drawn);
      const { tree } = question.model;
      for (const { kind, id } of planExact(question).actions) {
        if (kind === 'pass-on') continue;
        const needs = (kind === 'test' ? tree.tests[id]?.needs : tree.findings[id]?.remedy.needs) ?? {};
        expect({ id, met: canBeHad(question, needs) }).toEqual({ id, met: true });
      }
      const barred = Object.values(tree.tests).some(({ needs }) => !canBeHad(question, needs));
      if (barred) shut += 1;
    });
    fc.assert(property, { numRuns: 200 });
    expect(shut).toBeGreaterThan(10);
  },
);

function checkWayOut(
  tree: Tree,
  view: BenchView,
  { axis, at, from, i }: { axis: string; at: number; from: string; i: number },
  isBarred: (state: string) => boolean,
): void {
  const { states, start, changes } = tree.bench[axis] ?? { states: {}, start: '', changes: [] };
  const names = Object.keys(states);
  const free = changes.filter((change) => change.from === from && !isBarred(change.to));
  const out = view.wayOut(at, i);
  // At the start there is nowhere to go back to: any free changeover will do, and there may be none.
  expect(out === null).toBe(free.length === 0);
  if (out === null) return;
  expect(free.map(({ to, minutes }) => ({ to: names.indexOf(to), minutes }))).toContainEqual(out);
  const isFree = (state: string) => !isBarred(state);
  const home = leastMinutes(tree, axis, from, start, isFree);
  if (from === start || home === Infinity) return;
  const onwards = leastMinutes(tree, axis, names[out.to] ?? '', start, isFree);
  expect(Math.abs(out.minutes + onwards - home)).toBeLessThanOrEqual(TOLERANCE);
}

/** Least minutes by relaxing every changeover as often as there are states (Bellman-Ford). */
function leastMinutes(
  { bench }: Tree,
  axis: string,
  from: string,
  to: string,
  isFree: (state: string) => boolean,
): number {
  const { states, changes } = bench[axis] ?? { states: {}, changes: [] };
  const least = new Map([[from, 0]]);
  for (let round = 0; round < Object.keys(states).length; round += 1) {
    for (const change of changes) {
      const minutes = (least.get(change.from) ?? Infinity) + change.minutes;
      if (isFree(change.to) && minutes < (least.get(change.to) ?? Infinity)) least.set(change.to, minutes);
    }
  }
  return least.get(to) ?? Infinity;
}

/** Whether each wanted state can be come to without a changeover that the chart's interlocks bar as the job stands. */
function canBeHad(
  { model: { tree }, job, bench }: PlanQuestion,
  needs: Readonly<Record<string, string>>,
): boolean {
  const shut = tree.interlocks.filter((interlock) => !isOpen(interlock, job));
  return Object.entries(needs).every(([axis, state]) => {
    const isFree = (entered: string) => shut.every(({ change }) => change[axis] !== entered);
    return leastMinutes(tree, axis, bench[axis] ?? '', state, isFree) < Infinity;
  });
}
