import { shortest } from '../chart/index.ts';
import type { Needs, Tree } from '../document/index.ts';

/** States by axis, numbered as the tree lists them. */
export type Stand = ArrayLike<number>;

/** What a changeover costs while certain interlocks are shut. */
export interface BenchView {
  /** Minutes of the shortest chain between two states of an axis that enters no barred state; infinite where there is none. */
  readonly minutes: (axis: number, from: number, to: number) => number;
  readonly isBarred: (axis: number, state: number) => boolean;
  /** The changeover by which the chart leaves a barred state; null where none leads out. */
  readonly wayOut: (axis: number, state: number) => { readonly to: number; readonly minutes: number } | null;
}

/** One interlock: the states it watches, and by test the results that open it. */
export interface Lock {
  readonly watches: readonly { readonly axis: number; readonly state: number }[];
  readonly until: readonly { readonly test: number; readonly allowed: readonly boolean[] }[];
}

/** A tree's bench in numbers. */
export interface BenchTable {
  readonly axes: readonly string[];
  readonly states: readonly (readonly string[])[];
  readonly locks: readonly Lock[];
  /** Wanted states by axis; -1 where any will do. */
  readonly needs: (needs: Needs) => Int16Array;
  /** All changeovers of an axis together: no shortest chain takes longer. */
  readonly longest: readonly number[];
  /** Whether a state can be come to from every state of its axis without entering one that an interlock watches. */
  readonly isSafe: (axis: number, state: number) => boolean;
  /** What changeovers cost with the interlocks of these numbers shut. */
  readonly view: (shut: readonly number[]) => BenchView;
}

const tables = new WeakMap<Tree, BenchTable>();

/** The bench of a tree in numbers, with chains worked out when they are first asked for. Kept with the tree. */
export function benchTable(tree: Tree): BenchTable {
  const known = tables.get(tree);
  if (known !== undefined) return known;
  const made = makeTable(tree);
  tables.set(tree, made);
  return made;
}

function makeTable(tree: Tree): BenchTable {
  const axes = Object.keys(tree.bench);
  const states = Object.values(tree.bench).map((axis) => Object.keys(axis.states));
  const locks = locksOf(tree, axes, states);
  const views = new Map<string, BenchView>();
  const view = (shut: readonly number[]): BenchView => {
    const key = shut.join();
    const known = views.get(key);
    if (known !== undefined) return known;
    const made = makeView(tree, states, locks, shut);
    views.set(key, made);
    return made;
  };
  const allShut = locks.map((_, index) => index);
  return {
    axes,
    states,
    locks,
    needs: (needs) =>
      Int16Array.from(axes, (axis, index) => (states[index] ?? []).indexOf(needs[axis] ?? '')),
    longest: Object.values(tree.bench).map(({ changes }) =>
      changes.reduce((sum, { minutes }) => sum + minutes, 0),
    ),
    isSafe: (axis, state) =>
      !view(allShut).isBarred(axis, state) &&
      (states[axis] ?? []).every((_, from) => view(allShut).minutes(axis, from, state) < Infinity),
    view,
  };
}

function locksOf(
  tree: Tree,
  axes: readonly string[],
  states: readonly (readonly string[])[],
): readonly Lock[] {
  const tests = Object.keys(tree.tests);
  return tree.interlocks.map(({ change, until }) => ({
    watches: Object.entries(change).map(([axis, state]) => {
      const index = axes.indexOf(axis);
      return { axis: index, state: (states[index] ?? []).indexOf(state) };
    }),
    until: Object.entries(until).map(([test, allowed]) => ({
      test: tests.indexOf(test),
      allowed: Object.keys(tree.tests[test]?.results ?? {}).map((result) => allowed.includes(result)),
    })),
  }));
}

function makeView(
  tree: Tree,
  states: readonly (readonly string[])[],
  locks: readonly Lock[],
  shut: readonly number[],
): BenchView {
  const barred = new Set(
    shut.flatMap((lock) => (locks[lock]?.watches ?? []).map(({ axis, state }) => `${axis}/${state}`)),
  );
  const isBarred = (axis: number, state: number): boolean =>
    barred.size > 0 && barred.has(`${axis}/${state}`);
  const axes = Object.values(tree.bench).map(({ start, changes }, axis) => {
    const names = states[axis] ?? [];
    const free = changes.filter(({ to }) => !isBarred(axis, names.indexOf(to)));
    return { names, start, free, chains: new Float64Array(names.length ** 2).fill(-1) };
  });
  return {
    isBarred,
    minutes(axis, from, to) {
      if (from === to) return 0;
      const on = axes[axis];
      if (on === undefined) return Infinity;
      const at = from * on.names.length + to;
      const known = on.chains[at] ?? Infinity;
      if (known >= 0) return known;
      const chain = shortest(on.free, on.names[from] ?? '', on.names[to] ?? '');
      const minutes = chain?.reduce((sum, change) => sum + change.minutes, 0) ?? Infinity;
      on.chains[at] = minutes;
      return minutes;
    },
    wayOut(axis, state) {
      const on = axes[axis];
      if (on === undefined) return null;
      const name = on.names[state] ?? '';
      const [nearest] = on.free.filter(({ from }) => from === name).sort((a, b) => a.minutes - b.minutes);
      const change = shortest(on.free, name, on.start)?.[0] ?? nearest;
      return change === undefined ? null : { to: on.names.indexOf(change.to), minutes: change.minutes };
    },
  };
}
