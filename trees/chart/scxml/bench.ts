import type { Tree } from '../../document/index.ts';
import { state, type Element } from './element.ts';
import { lockOf, lockRegions, watchedStates } from './lock.ts';
import { benchStand, standRegions } from './stand.ts';

/** Active exactly while the bench stands in no state that an interlock now bars, once the locks have come to rest. */
export const SAFE = 'safety.safe';

/** Regions of the bench: its axes, what of several of them is needed at once, the interlocks, and whether it is safe. */
export function benchRegions(tree: Tree): readonly Element[] {
  return [
    ...Object.keys(tree.bench).map((axis) => axisRegion(tree, axis)),
    ...standRegions(tree),
    ...lockRegions(tree),
    safetyRegion(tree),
  ];
}

function axisRegion(tree: Tree, axis: string): Element {
  const { start = '', states = {}, changes = [] } = tree.bench[axis] ?? {};
  const nodes = Object.keys(states).map((from) =>
    state(benchStand(axis, from).id, {
      raiseOnEntry: benchStand(axis, from).entered,
      ways: changes
        .filter((change) => change.from === from)
        .map(({ to }) => {
          const lock = lockOf(tree, axis, to);
          return {
            event: `change.${axis}.${to}`,
            ...(lock === undefined ? {} : { in: `${lock}.open` }),
            target: benchStand(axis, to).id,
          };
        }),
    }),
  );
  return state(`bench.${axis}`, { initial: benchStand(axis, start).id, states: nodes });
}

/**
 * Unsafe is to stand in a watched state whose lock is not open. No changeover leads there, so it comes about where the job
 * starts or a lock is shut; when the bench or a lock then moves, the watched states are gone through one by one.
 */
function safetyRegion(tree: Tree): Element {
  const watched = watchedStates(tree).map(([axis, one]) => ({
    stand: benchStand(axis, one),
    lock: lockOf(tree, axis, one) ?? '',
  }));
  const stage = (place: number) => (place < watched.length ? `safety.${String(place)}` : SAFE);
  const stages = watched.map(({ stand, lock }, place) =>
    state(stage(place), {
      ways: [
        { in: `${lock}.open`, target: stage(place + 1) },
        { in: stand.id, target: 'safety.unsafe' },
        { target: stage(place + 1) },
      ],
    }),
  );
  const barred = watched.map(({ stand, lock }) => ({
    event: `barred.${lock}`,
    in: stand.id,
    target: 'safety.unsafe',
  }));
  const moves = new Set(watched.flatMap(({ stand, lock }) => [stand.moved, `freed.${lock}`]));
  const unsafe = state('safety.unsafe', { ways: [{ event: [...moves], target: stage(0) }] });
  return state('safety', {
    initial: stage(0),
    states: [...stages, state(SAFE, { ways: barred }), ...(watched.length === 0 ? [] : [unsafe])],
  });
}
