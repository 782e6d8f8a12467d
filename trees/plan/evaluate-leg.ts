import { answerTo, isFresh, resultOf, staleWithout } from './evaluate-answers.ts';
import type { Layout } from './evaluate-layout.ts';
import { hasTried, setOut, withTried, type Place, type Spot } from './evaluate-spot.ts';
import type { MadeChange, Target, Way, Ways } from './evaluate-ways.ts';
import type { Goal } from './question.ts';

/** What is done on the way to the next test, whatever the unit has. */
export type Doing =
  ({ readonly kind: 'changeover' } & MadeChange) | { readonly kind: 'remedy'; readonly finding: string };

/** Where the way forks or ends. `cut` is a way that does not come to an end. */
export type Halt =
  | { readonly kind: 'test'; readonly test: number; readonly sound: number; readonly spot: Spot }
  | { readonly kind: 'finding'; readonly finding: string }
  | { readonly kind: 'fixed'; readonly finding: string }
  | { readonly kind: 'pass-on' }
  | { readonly kind: 'cut' };

/** What the technician does from a spot, in order, up to the next test or the end of the job. */
export interface Leg {
  readonly doings: readonly Doing[];
  readonly halt: Halt;
}

export interface Walking {
  readonly layout: Layout;
  readonly ways: Ways;
  readonly goal: Goal;
  /** Results are told apart also where they lead to the same, as where it is asked which branches are passed. */
  readonly tellsApart?: boolean;
}

/** Follows the one act that the chart shows, until the next test is to be made or the job has come to its end. */
export function legFrom(walking: Walking, start: Spot): Leg {
  const doings: Doing[] = [];
  let spot = start;
  for (;;) {
    const proof = spot.place.kind === 'proof' ? proofNow(spot) : null;
    if (proof?.kind === 'passed' || proof?.kind === 'failed') {
      spot = proof.kind === 'passed' ? mended(spot) : failed(walking.layout, spot);
      continue;
    }
    const way = spot.isOver ? null : walking.ways.towards(spot, targetOf(walking.layout, spot.place, proof));
    if (way !== null) {
      for (const made of way.changes) doings.push({ kind: 'changeover', ...made });
      spot = { ...spot, bench: way.bench };
    }
    const next = atEnd(walking, spot, way?.end ?? { kind: 'there' }, doings);
    if (!('place' in next)) return { doings, halt: next };
    spot = next;
  }
}

function targetOf({ steps }: Layout, { kind, at }: Place, proof: ProofNow | null): Target {
  if (proof?.kind === 'next') return { kind: 'proof', test: proof.test };
  if (kind === 'step') return { kind, test: steps[at]?.test ?? 0 };
  return kind === 'remedy' ? { kind, finding: at } : { kind: 'none' };
}

function atEnd(walking: Walking, spot: Spot, end: Way['end'], doings: Doing[]): Spot | Halt {
  switch (end.kind) {
    case 'test':
      return { ...end, spot };
    case 'there':
      return placeAct(walking, spot, doings);
    case 'barred':
      return spot.place.kind === 'proof' ? failed(walking.layout, spot) : { kind: 'pass-on' };
    case 'no-way':
      return { kind: 'pass-on' };
    case 'endless':
      return { kind: 'cut' };
  }
}

/** The act is the place's own: take the remedy in hand, do it, or end the job. */
function placeAct({ layout, goal }: Walking, spot: Spot, doings: Doing[]): Spot | Halt {
  const finding = layout.findings[spot.place.at]?.id ?? '';
  switch (spot.place.kind) {
    case 'finding':
      return goal === 'isolate' ? { kind: 'finding', finding } : inHand(layout, spot);
    case 'remedy':
      doings.push({ kind: 'remedy', finding });
      return done(layout, spot);
    case 'mended':
      return { kind: 'fixed', finding };
    case 'step':
    case 'proof':
    case 'adrift':
      return { kind: 'pass-on' };
  }
}

/** The finding's remedy taken in hand: its proof is the finding's own, else what was not sound. */
export function inHand({ findings }: Layout, spot: Spot): Spot {
  const named = findings[spot.place.at]?.prove ?? [];
  return {
    ...spot,
    place: { kind: 'remedy', at: spot.place.at },
    prove: named.length > 0 ? named : spot.unsound,
  };
}

/** The remedy done: what it disturbs is not known any more, and nothing is fresh. */
function done({ findings }: Layout, spot: Spot): Spot {
  const { disturbs = [] } = findings[spot.place.at] ?? {};
  const answers = staleWithout(spot.answers, disturbs);
  const unsound = spot.unsound.filter((test) => !disturbs.includes(test));
  return { ...spot, place: { kind: 'proof', at: spot.place.at }, answers, unsound };
}

type ProofNow = { readonly kind: 'passed' | 'failed' } | { readonly kind: 'next'; readonly test: number };

/** A proof fails by any result that is not the first. */
function proofNow({ answers, prove }: Spot): ProofNow {
  let next: ProofNow = { kind: 'passed' };
  for (const test of prove) {
    const code = answerTo(answers, test);
    if (isFresh(code) && resultOf(code) !== 0) return { kind: 'failed' };
    if (!isFresh(code) && next.kind === 'passed') next = { kind: 'next', test };
  }
  return next;
}

function mended(spot: Spot): Spot {
  return { ...spot, place: { kind: 'mended', at: spot.place.at } };
}

function failed(layout: Layout, spot: Spot): Spot {
  const tried = hasTried(spot, spot.place.at) ? spot.tried : withTried(spot.tried, spot.place.at);
  return { ...spot, tried, prove: [], ...setOut(layout, { answers: spot.answers, tried }) };
}
