import { UNLISTED, type Change, type Tree } from '../document/index.ts';
import type { Place } from './place.ts';
import { remedyNeeds } from './refuse-remedy.ts';
import { proofProgress, remedyNow } from './remedy.ts';
import { safetyMove } from './safety.ts';
import type { Situation } from './situation.ts';
import type { Act } from './standing.ts';
import { wayToBench, wayToTest, type Move } from './way.ts';

/** The next move from a situation; null where there is none to make. */
type Plan = (at: Situation) => Move | null;

/** Changeovers to come are looked ahead for no further than this, however a tree's axes are made. */
const LOOK_AHEAD = 50;

/** The one thing to do now: safety first, then whatever the place of the course asks for. */
export function actNow(tree: Tree, at: Situation, place: Place): Act {
  if (at.job.outcome !== undefined) return { kind: 'closed', outcome: at.job.outcome };
  const leaving: Plan = (then) => safetyMove(tree, then);
  return byPlan(at, leaving) ?? byPlan(at, planAt(tree, place)) ?? actAt(at, place);
}

/**
 * The move that {@link actNow} shows, without the changeovers that come after it; null where the act is none of the
 * way's but the place's own: a finding, a remedy to be done, the end of the path.
 */
export function moveNow(tree: Tree, at: Situation, place: Place): Move | null {
  return safetyMove(tree, at) ?? planAt(tree, place)(at);
}

function planAt(tree: Tree, place: Place): Plan {
  switch (place.kind) {
    case 'step':
      return testPlan(tree, place.test, { kind: 'path', step: place.step });
    case 'aside':
      return testPlan(tree, place.test, { kind: 'aside' });
    case 'remedy':
      return remedyPlan(tree, place.finding);
    case 'proof':
      return (then) => proofMove(tree, then);
    case 'finding':
    case 'contradiction':
    case 'mended':
    case 'adrift':
    case 'closed':
      return () => null;
  }
}

function actAt(at: Situation, place: Place): Act {
  switch (place.kind) {
    case 'remedy':
      return { kind: 'remedy', finding: place.finding };
    case 'finding':
      return { kind: 'finding', finding: place.finding };
    case 'contradiction':
      return { kind: 'contradiction', test: at.job.contradiction?.test ?? '' };
    case 'mended':
      return { kind: 'mended', finding: remedyNow(at.job)?.finding ?? UNLISTED };
    case 'adrift':
      return place;
    case 'step':
    case 'aside':
    case 'proof':
    case 'closed':
      return { kind: 'adrift', because: 'path-ended' };
  }
}

function testPlan(tree: Tree, test: string, purpose: Parameters<typeof wayToTest>[3]): Plan {
  return (at) => wayToTest(tree, at, test, purpose);
}

function remedyPlan(tree: Tree, finding: string): Plan {
  return (at) => wayToBench(tree, at, remedyNeeds(tree, at.job), { kind: 'remedy', finding });
}

function proofMove(tree: Tree, at: Situation): Move | null {
  const progress = proofProgress(tree, at);
  return progress.kind === 'next' ? progress.move : null;
}

function byPlan(at: Situation, plan: Plan): Act | null {
  const move = plan(at);
  if (move === null) return null;
  switch (move.kind) {
    case 'change':
      return { ...move, after: changesAfter(at, move, plan) };
    case 'no-way':
      return { kind: 'adrift', because: 'path-ended' };
    case 'test':
    case 'barred':
      return move;
  }
}

/** The changeovers after the first, up to the next thing that is not one. */
function changesAfter(at: Situation, first: Move, plan: Plan): { axis: string; change: Change }[] {
  const after: { axis: string; change: Change }[] = [];
  let move: Move | null = first;
  let { bench } = at;
  while (move?.kind === 'change' && after.length < LOOK_AHEAD) {
    bench = { ...bench, [move.axis]: move.change.to };
    move = plan({ ...at, bench });
    if (move?.kind === 'change') after.push({ axis: move.axis, change: move.change });
  }
  return after;
}
