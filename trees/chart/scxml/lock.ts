import type { Tree } from '../../document/index.ts';
import { watches } from '../interlock.ts';
import { state, type Element } from './element.ts';

/** A test that a lock waits for, with the results that it takes. */
type Opener = readonly [test: string, allowed: readonly string[]];

/** Regions of the interlocks, and of the bench states that several of them watch. */
export function lockRegions(tree: Tree): readonly Element[] {
  const shared = watchedStates(tree).flatMap(([axis, to]) => {
    const watching = watchers(tree, axis, to);
    const openers = watching.flatMap((index) => openersOf(tree, index));
    return watching.length > 1 ? [lockRegion(wayId(axis, to), openers)] : [];
  });
  return [
    ...tree.interlocks.map((_, index) => lockRegion(interlockId(index), openersOf(tree, index))),
    ...shared,
  ];
}

/** The lock that is open exactly while a changeover into this state is not barred; undefined where nothing watches it. */
export function lockOf(tree: Tree, axis: string, to: string): string | undefined {
  const [first, ...more] = watchers(tree, axis, to);
  if (first === undefined) return undefined;
  return more.length === 0 ? interlockId(first) : wayId(axis, to);
}

/** The bench states that interlocks watch. */
export function watchedStates(tree: Tree): readonly (readonly [axis: string, state: string])[] {
  return Object.entries(tree.bench).flatMap(([axis, { states }]) =>
    Object.keys(states).flatMap((one) =>
      watchers(tree, axis, one).length > 0 ? [[axis, one] as const] : [],
    ),
  );
}

/**
 * A region that is in `ID.open` exactly while each opener has an allowed answer of this era that is not contradicted. It
 * asks for them one after the other, and only when an answer to one of them may have changed; else it rests.
 */
function lockRegion(id: string, openers: readonly Opener[]): Element {
  const tests = [...new Set(openers.map(([test]) => test))];
  const waiting = `${id}.shut.waiting`;
  const stage = (place: number) => (place < openers.length ? `${id}.shut.${String(place)}` : `${id}.open`);
  const stages = openers.map(([test, allowed], place) =>
    state(stage(place), {
      ways: [
        { in: `contradiction.${test}`, target: waiting },
        ...allowed.map((result) => ({ in: `answer.${test}.now.${result}`, target: stage(place + 1) })),
        { target: waiting },
      ],
    }),
  );
  const weigh = tests.flatMap((test) => [`answered.${test}`, `rewritten.${test}`, `kept.${test}`]);
  const shut = ['era', ...tests.map((test) => `contradict.${test}`)];
  return state(id, {
    initial: stage(0),
    ways: openers.length === 0 ? [] : [{ event: weigh, target: stage(0), isInternal: true }],
    states: [
      state(`${id}.shut`, { states: [state(waiting, { raiseOnEntry: `barred.${id}` }), ...stages] }),
      state(`${id}.open`, {
        raiseOnEntry: `freed.${id}`,
        ways: openers.length === 0 ? [] : [{ event: shut, target: waiting }],
      }),
    ],
  });
}

function watchers(tree: Tree, axis: string, to: string): readonly number[] {
  return tree.interlocks.flatMap((interlock, index) => (watches(interlock, axis, to) ? [index] : []));
}

function openersOf(tree: Tree, index: number): readonly Opener[] {
  return Object.entries(tree.interlocks[index]?.until ?? {});
}

function interlockId(index: number): string {
  return `interlock.${String(index)}`;
}

function wayId(axis: string, to: string): string {
  return `way.${axis}.${to}`;
}
