import { moveNow, updated, whereabouts, type JobState, type Move, type Situation } from '../chart/index.ts';
import type { Bench, Place } from '../chart/index.ts';
import { own, type Change, type Tree } from '../document/index.ts';
import type { World } from './evaluate-world.ts';

/** Where a job stands: all that decides what is done next. */
export interface Spot {
  readonly job: JobState;
  readonly bench: Bench;
  readonly place: Place;
  /** Nothing is left to do here, whatever the bench; the rest of the spot is forgotten. */
  readonly isOver?: true;
}

/** What is done on the way to the next test, whatever the unit has. */
export type Doing =
  | { readonly kind: 'changeover'; readonly axis: string; readonly change: Change }
  | { readonly kind: 'remedy'; readonly finding: string };

/** Where the way forks or ends. `cut` is a way that does not come to an end. */
export type Halt =
  | {
      readonly kind: 'test';
      readonly test: string;
      /** The result that a mended unit gives. */
      readonly sound: string;
      readonly spot: Spot;
    }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'fixed'; readonly finding: string }
  | { readonly kind: 'pass-on' }
  | { readonly kind: 'cut' };

/** What the technician does from a spot, in order, up to the next test or the end of the job. */
export interface Leg {
  readonly doings: readonly Doing[];
  readonly halt: Halt;
}

/** Longer than any way that comes to an end between two tests. */
const LONGEST = 1000;

/** Follows the one act that the chart shows, until the next test is to be made or the job has come to its end. */
export function legFrom(world: World, start: Spot): Leg {
  const doings: Doing[] = [];
  let spot = start;
  while (doings.length < LONGEST) {
    const move = spot.isOver === true ? null : moveNow(world.tree, situationAt(spot), spot.place);
    const next = move === null ? placeAct(world, spot, doings) : moved(world.tree, spot, move, doings);
    if ('kind' in next) return { doings, halt: next };
    spot = next;
  }
  return { doings, halt: { kind: 'cut' } };
}

export function situationAt({ job, bench }: Spot): Situation {
  return { job, bench, passed: [] };
}

function moved(tree: Tree, spot: Spot, move: Move, doings: Doing[]): Spot | Halt {
  switch (move.kind) {
    case 'test':
      return { kind: 'test', test: move.test, sound: soundAnswer(tree, move), spot };
    case 'change': {
      doings.push({ kind: 'changeover', axis: move.axis, change: move.change });
      const there = { ...spot, bench: { ...spot.bench, [move.axis]: move.change.to } };
      // How the bench stands can only end a proof whose way it bars.
      return spot.place.kind === 'proof' ? settled(tree, there) : there;
    }
    case 'barred':
    case 'no-way':
      return { kind: 'pass-on' };
  }
}

/** The act is the place's own: take the remedy in hand, do it, or end the job. */
function placeAct({ tree, goal }: World, spot: Spot, doings: Doing[]): Spot | Halt {
  const { place, job } = spot;
  switch (place.kind) {
    case 'finding':
      if (goal === 'isolate') return { kind: 'finding', finding: place.finding };
      return settled(tree, {
        ...spot,
        job: updated(tree, job, { kind: 'start-remedy', finding: place.finding }),
      });
    case 'remedy':
      doings.push({ kind: 'remedy', finding: place.finding });
      return settled(tree, { ...spot, job: updated(tree, job, { kind: 'remedy-done' }) });
    case 'mended':
      return { kind: 'fixed', finding: job.remedies.at(-1)?.finding ?? '' };
    case 'step':
    case 'aside':
    case 'proof':
    case 'contradiction':
    case 'adrift':
    case 'closed':
      return { kind: 'pass-on' };
  }
}

function settled(tree: Tree, spot: Spot): Spot {
  return { bench: spot.bench, ...whereabouts(tree, situationAt(spot)) };
}

function soundAnswer(tree: Tree, { test, purpose }: Move & { kind: 'test' }): string {
  const results = Object.keys(own(tree.tests, test)?.results ?? {});
  const [first = ''] = results;
  if (purpose.kind !== 'interlock') return first;
  const allowed = own(tree.interlocks[purpose.interlock]?.until ?? {}, test) ?? [];
  return results.find((result) => allowed.includes(result)) ?? first;
}
