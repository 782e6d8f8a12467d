import type { Tree } from '../../document/index.ts';
import { watches } from '../interlock.ts';
import { state, type Element } from './element.ts';
import { gate, type Condition } from './gate.ts';

/** Regions of the bench: its axes, the interlocks with their openers, and what the two make of one another. */
export function benchRegions(tree: Tree): readonly Element[] {
  const watched = watchedStates(tree);
  return [
    ...Object.keys(tree.bench).map((axis) => axisRegion(tree, axis)),
    ...tree.interlocks.flatMap((_, index) => interlockRegions(tree, index)),
    ...watched.map(([axis, to]) => gate(wayId(axis, to), waysOpen(tree, axis, to))),
    ...watched.map(([axis, to]) => watchRegion(tree, axis, to)),
    gate(
      'safe',
      watched.map(([axis, to]) => ({
        on: `${watchId(axis, to)}.safe`,
        off: [`${watchId(axis, to)}.unsafe`],
      })),
    ),
  ];
}

/** That an axis stands in this state. */
export function standsIn(tree: Tree, axis: string, wanted: string): Condition {
  const others = Object.keys(tree.bench[axis]?.states ?? {}).filter((one) => one !== wanted);
  return { on: benchId(axis, wanted), off: others.map((one) => benchId(axis, one)) };
}

export function benchId(axis: string, of: string): string {
  return `bench.${axis}.${of}`;
}

function axisRegion(tree: Tree, axis: string): Element {
  const { start = '', states = {}, changes = [] } = tree.bench[axis] ?? {};
  const nodes = Object.keys(states).map((from) =>
    state(benchId(axis, from), {
      ways: changes
        .filter((change) => change.from === from)
        .map(({ to }) => ({
          event: `change.${axis}.${to}`,
          ...(isWatched(tree, axis, to) ? { in: `${wayId(axis, to)}.open` } : {}),
          target: benchId(axis, to),
        })),
    }),
  );
  return state(`bench.${axis}`, { initial: benchId(axis, start), states: nodes });
}

/** An opener is allowed while its test has an allowed answer of this era that is not contradicted. */
function interlockRegions(tree: Tree, index: number): readonly Element[] {
  const until = Object.entries(tree.interlocks[index]?.until ?? {});
  const id = (test: string) => `opener.${String(index)}.${test}`;
  const openers = until.map(([test, allowed]) => {
    const results = Object.keys(tree.tests[test]?.results ?? {});
    const others = results.filter((result) => !allowed.includes(result));
    const gone = [
      `answer.${test}.none`,
      `answer.${test}.old`,
      ...others.map((other) => `answer.${test}.now.${other}`),
    ];
    return state(id(test), {
      states: [
        state(`${id(test)}.waiting`, {
          ways: allowed.map((result) => ({
            in: `answer.${test}.now.${result}`,
            target: `${id(test)}.allowed`,
          })),
        }),
        state(`${id(test)}.allowed`, {
          ways: [
            { in: `contradiction.${test}`, target: `${id(test)}.contradicted` },
            ...gone.map((active) => ({ in: active, target: `${id(test)}.waiting` })),
          ],
        }),
        state(`${id(test)}.contradicted`, {
          ways: ['routing', 'working', 'mended'].map((active) => ({
            in: active,
            target: `${id(test)}.waiting`,
          })),
        }),
      ],
    });
  });
  const conditions = until.map(([test]) => ({
    on: `${id(test)}.allowed`,
    off: [`${id(test)}.waiting`, `${id(test)}.contradicted`],
  }));
  return [...openers, gate(`interlock.${String(index)}`, conditions)];
}

/** Whether the bench stands in a watched state although it is barred. */
function watchRegion(tree: Tree, axis: string, watched: string): Element {
  const id = watchId(axis, watched);
  const { on, off } = standsIn(tree, axis, watched);
  const gone = off.map((active) => ({ in: active, target: `${id}.away` }));
  return state(id, {
    states: [
      state(`${id}.safe`, {
        states: [
          state(`${id}.away`, { ways: [{ in: on, target: `${id}.there` }] }),
          state(`${id}.there`, {
            ways: [...gone, { in: `${wayId(axis, watched)}.shut`, target: `${id}.unsafe` }],
          }),
        ],
      }),
      state(`${id}.unsafe`, {
        ways: [...gone, { in: `${wayId(axis, watched)}.open`, target: `${id}.there` }],
      }),
    ],
  });
}

function waysOpen(tree: Tree, axis: string, to: string): readonly Condition[] {
  return tree.interlocks.flatMap((interlock, index) =>
    watches(interlock, axis, to)
      ? [{ on: `interlock.${String(index)}.open`, off: [`interlock.${String(index)}.shut`] }]
      : [],
  );
}

function watchedStates(tree: Tree): readonly (readonly [axis: string, state: string])[] {
  return Object.entries(tree.bench).flatMap(([axis, { states }]) =>
    Object.keys(states).flatMap((one) => (isWatched(tree, axis, one) ? [[axis, one] as const] : [])),
  );
}

function isWatched(tree: Tree, axis: string, to: string): boolean {
  return tree.interlocks.some((interlock) => watches(interlock, axis, to));
}

function wayId(axis: string, to: string): string {
  return `way.${axis}.${to}`;
}

function watchId(axis: string, to: string): string {
  return `watch.${axis}.${to}`;
}
