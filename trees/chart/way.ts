import { own, type Needs, type Tree } from '../document/index.ts';
import { missingReference } from './answers.ts';
import { chainsTo, isWatched, type Chain } from './changeover.ts';
import { barring, isHopeless, nextOpener } from './interlock.ts';
import type { Situation } from './situation.ts';
import type { Purpose, Wanted } from './standing.ts';

/** One act towards a wanted bench state or test; `no-way` where the bench cannot be brought there. */
export type Move =
  | {
      readonly kind: 'change';
      readonly axis: string;
      readonly change: Chain['changes'][number];
      readonly wanted: Wanted;
    }
  | { readonly kind: 'test'; readonly test: string; readonly purpose: Purpose }
  | { readonly kind: 'barred'; readonly interlock: number; readonly wanted: Wanted }
  | { readonly kind: 'no-way' };

/** A move, and the bench states that it and the rest of its way rely on: an outer way must not undo them. */
interface Way {
  readonly move: Move;
  readonly claims: Needs;
}

/**
 * The next move towards making a test: first the reading its ratio bands refer to, then changeovers (with the tests of
 * the interlocks in their way), then the test itself.
 */
export function wayToTest(tree: Tree, at: Situation, test: string, purpose: Purpose): Move {
  return testWay(tree, at, test, purpose, []).move;
}

/** The next move towards a bench state; null where the bench stands so. */
export function wayToBench(tree: Tree, at: Situation, needs: Needs, wanted: Wanted): Move | null {
  return benchWay(tree, at, needs, wanted, [])?.move ?? null;
}

/** The next move towards opening an interlock. `opening` are the interlocks already being opened on the way. */
export function wayToOpen(
  tree: Tree,
  at: Situation,
  index: number,
  wanted: Wanted,
  opening: readonly number[] = [],
): Way {
  const barred: Way = { move: { kind: 'barred', interlock: index, wanted }, claims: {} };
  const interlock = tree.interlocks[index];
  if (interlock === undefined || opening.includes(index) || isHopeless(interlock, at.job)) return barred;
  const test = nextOpener(interlock, at.job);
  if (test === undefined) return barred;
  return testWay(tree, at, test, { kind: 'interlock', interlock: index, wanted }, [...opening, index]);
}

function testWay(tree: Tree, at: Situation, test: string, purpose: Purpose, opening: readonly number[]): Way {
  const wanted: Wanted = { kind: 'test', test };
  const reference = missingReference(tree, at.job, test);
  if (reference !== undefined) return testWay(tree, at, reference, { kind: 'reference', wanted }, opening);
  const needs = own(tree.tests, test)?.needs ?? {};
  const way = benchWay(tree, at, needs, wanted, opening);
  return way === null
    ? { move: { kind: 'test', test, purpose }, claims: needs }
    : { move: way.move, claims: { ...needs, ...way.claims } };
}

function benchWay(
  tree: Tree,
  at: Situation,
  needs: Needs,
  wanted: Wanted,
  opening: readonly number[],
): Way | null {
  const chains = chainsTo(tree, at, needs);
  if (chains === null) return { move: { kind: 'no-way' }, claims: {} };
  const inner = firstToOpen(tree, at, chains, wanted, opening);
  if (inner?.move.kind === 'barred' || inner?.move.kind === 'no-way') return inner;
  const claims = inner?.claims ?? {};
  const ready = chains.find((chain) =>
    inner === null ? true : !isWatched(tree, chain) && leavesAlone(chain, claims),
  );
  const change = ready?.changes[0];
  if (ready === undefined || change === undefined) return inner;
  return { move: { kind: 'change', axis: ready.axis, change, wanted }, claims };
}

/**
 * Of the interlocks that bar these chains, the way to open the one whose test can be made as the bench stands, else the
 * first; one that cannot open goes before all, since nothing should be undone for a way that is closed.
 */
function firstToOpen(
  tree: Tree,
  at: Situation,
  chains: readonly Chain[],
  wanted: Wanted,
  opening: readonly number[],
): Way | null {
  const barred = chains.flatMap(({ axis, changes }) =>
    changes.flatMap(({ to }) => barring(tree, at.job, axis, to) ?? []),
  );
  const ways = [...new Set(barred)].map((index) => wayToOpen(tree, at, index, wanted, opening));
  const stuck = ways.find(({ move }) => move.kind === 'barred' || move.kind === 'no-way');
  return stuck ?? ways.find(({ move }) => move.kind === 'test') ?? ways[0] ?? null;
}

function leavesAlone({ axis, changes }: Chain, claims: Needs): boolean {
  const claimed = own(claims, axis);
  return claimed === undefined || claimed === changes.at(-1)?.to;
}
