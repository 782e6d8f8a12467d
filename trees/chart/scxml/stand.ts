import { own, type Needs, type Tree } from '../../document/index.ts';
import { state, type Element, type Way } from './element.ts';
import { provable } from './reach.ts';

/** Wanted states of some axes, in the tree's order of axes. */
type Pairs = readonly (readonly [axis: string, wanted: string])[];

/** A bench state that something needs, as the null data model can ask for it. */
export interface Stand {
  /** The state that is active exactly while the bench stands so. */
  readonly id: string;
  /** Raised when that state is entered. */
  readonly entered: string;
  /** Descriptor of all that its region raises, so of every move by which the bench may come to stand otherwise. */
  readonly moved: string;
}

/** How the bench must stand for these needs; null where it may stand anyhow. */
export function standFor(tree: Tree, needs: Needs): Stand | null {
  const pairs = pairsOf(tree, needs);
  return pairs.length === 0 ? null : standOf(pairs);
}

export function benchStand(axis: string, wanted: string): Stand {
  return { id: `bench.${axis}.${wanted}`, entered: `moved.${axis}.${wanted}`, moved: `moved.${axis}` };
}

/**
 * Regions for the needs that name several axes, one for each set of axes. Each is put together from the region for all
 * but the last of its axes and from the last axis, and goes by what these two raise when they move.
 */
export function standRegions(tree: Tree): readonly Element[] {
  const wanted = [
    ...Object.values(tree.tests).map(({ needs }) => needs),
    ...provable(tree).map((finding) => tree.findings[finding]?.remedy.needs ?? {}),
  ].flatMap((needs) => beginnings(pairsOf(tree, needs)));
  const regions = new Map<string, Map<string, Pairs>>();
  for (const pairs of wanted) {
    const region = regions.get(axesOf(pairs)) ?? new Map<string, Pairs>();
    regions.set(axesOf(pairs), region.set(statesOf(pairs), pairs));
  }
  return [...regions].map(([axes, combinations]) => standRegion(axes, [...combinations.values()]));
}

function standRegion(axes: string, combinations: readonly Pairs[]): Element {
  const none = `stands.${axes}.none`;
  const parts = combinations.map((pairs) => ({
    target: standOf(pairs).id,
    rest: standOf(pairs.slice(0, -1)),
    last: standOf(pairs.slice(-1)),
  }));
  const moves = new Set(parts.flatMap(({ rest, last }) => [rest.moved, last.moved]));
  const ways = parts.flatMap(({ target, rest, last }): Way[] => [
    { event: rest.entered, in: last.id, target, isInternal: true },
    { event: last.entered, in: rest.id, target, isInternal: true },
  ]);
  return state(`stands.${axes}`, {
    ways: [...ways, { event: [...moves], target: none, isInternal: true }],
    states: [
      state(none, { raiseOnEntry: `moved.${axes}.none` }),
      ...combinations.map(standOf).map(({ id, entered }) => state(id, { raiseOnEntry: entered })),
    ],
  });
}

/** Ids have single hyphens, so two between them keep a combination apart from any one axis or state. */
function standOf(pairs: Pairs): Stand {
  const [[axis = '', wanted = ''] = [], ...more] = pairs;
  if (more.length === 0) return benchStand(axis, wanted);
  const axes = axesOf(pairs);
  const states = statesOf(pairs);
  return { id: `stands.${axes}.${states}`, entered: `moved.${axes}.${states}`, moved: `moved.${axes}` };
}

function beginnings(pairs: Pairs): readonly Pairs[] {
  return pairs.slice(1).map((_, place) => pairs.slice(0, place + 2));
}

function pairsOf(tree: Tree, needs: Needs): Pairs {
  return Object.keys(tree.bench).flatMap((axis) => {
    const wanted = own(needs, axis);
    return wanted === undefined ? [] : [[axis, wanted] as const];
  });
}

function axesOf(pairs: Pairs): string {
  return pairs.map(([axis]) => axis).join('--');
}

function statesOf(pairs: Pairs): string {
  return pairs.map(([, wanted]) => wanted).join('--');
}
