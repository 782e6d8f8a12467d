import { contributionOf } from '../belief/index.ts';
import type { JobEvent, JobState, Outcome } from '../chart/index.ts';
import { own, type Tree } from '../document/index.ts';
import { SHOWN, type JobFact } from './fact.ts';

/** An event as it was recorded; `at` in milliseconds since 1970 UTC. */
export interface TimedEvent {
  readonly at: number;
  readonly technicianId: string;
  readonly event: JobEvent;
}

/** A finding that the bench showed beside its percentage, a whole number. */
export type ShownFinding = readonly [finding: string, percent: number];

/** A closed job as it was recorded. Moments are milliseconds since 1970 UTC. */
export interface ClosedJob {
  readonly place: number;
  readonly openedAt: number;
  readonly board: string;
  /** The job's own tree revision. */
  readonly tree: Tree;
  /** All its events; the last one closed it. */
  readonly events: readonly TimedEvent[];
  /** What the chart says that it knows at its end. */
  readonly after: JobState & { readonly outcome: Outcome };
  /** What was shown when the first remedy was taken in hand; empty where that was not recorded. */
  readonly shown: readonly ShownFinding[];
  readonly backAt: number | null;
}

/** The longest that a unit can have been at the bench between two acts; past that it waited. Our own rule, no source. */
export const LONGEST_ACT = 60 * 60_000;

/**
 * What the review keeps of a closed job. `current` is the tree's current revision, by which the results are sorted. Acts
 * count where they were not taken back; time passes by all that was done, a gap over an hour counting as one.
 */
export function factOf(job: ClosedJob, current: Tree): JobFact {
  const { after, events, tree } = job;
  const passed = timesPassed(job);
  const trail = trailOf(events);
  const isFixed = after.outcome === 'fixed';
  const mended = isFixed ? after.remedies.findLastIndex(({ state }) => state === 'mended') : -1;
  const finding = after.remedies[mended]?.finding ?? null;
  // The chart adds a remedy with each that is taken in hand, and takes none away.
  const taken = trail.filter((at) => events[at]?.event.kind === 'start-remedy')[mended];
  const last = events.at(-1);
  const acts = trail.flatMap((at) => events[at]?.event ?? []);
  const shown = job.shown.slice(0, SHOWN);
  const confirmed = shown.findIndex(([one]) => one === finding);
  return {
    place: job.place,
    closedAt: last?.at ?? job.openedAt,
    tree: tree.id,
    symptom: after.symptom,
    board: job.board,
    technician: last?.technicianId ?? '',
    outcome: after.outcome,
    finding,
    tried: after.remedies.find(({ state }) => state === 'mended' || state === 'not-mended')?.finding ?? null,
    failed: after.remedies.filter(({ state }) => state === 'not-mended').length,
    backAt: job.backAt,
    toFinding: taken === undefined ? null : (passed[taken] ?? null),
    toProof: isFixed ? (passed[trail.at(-2) ?? -1] ?? 0) : null,
    atBench: passed.at(-1) ?? 0,
    tests: acts.filter(({ kind }) => kind === 'answer').length,
    parts: priceOfParts(tree, acts),
    advised: acts.filter(isAdvised).length,
    answers: answersNow(current, after),
    shown: shown.map(([, percent]) => percent),
    confirmed: confirmed < 0 ? null : confirmed,
  };
}

/**
 * The results of a confirmed job's tests as the tree's bands sort them, in the order of the tests' ids; none where nothing was
 * confirmed. `after` needs no more than what history is made of.
 */
export function answersNow(current: Tree, after: JobState): JobFact['answers'] {
  const results = contributionOf(current, after)?.results ?? [];
  return results.toSorted((a, b) => (a.test < b.test ? -1 : Number(a.test > b.test)));
}

/** Time at the bench up to each event. */
function timesPassed({ openedAt, events }: ClosedJob): readonly number[] {
  let [before, passed] = [openedAt, 0];
  return events.map(({ at }) => {
    passed += Math.min(Math.max(at - before, 0), LONGEST_ACT);
    before = at;
    return passed;
  });
}

/** The numbers of the events that were not taken back. */
function trailOf(events: readonly TimedEvent[]): readonly number[] {
  const trail: number[] = [];
  for (const [at, { event }] of events.entries()) {
    if (event.kind === 'take-back') trail.pop();
    else trail.push(at);
  }
  return trail;
}

function priceOfParts(tree: Tree, acts: readonly JobEvent[]): number {
  let inHand = '';
  let price = 0;
  for (const act of acts) {
    if (act.kind === 'start-remedy') inHand = act.finding;
    if (act.kind !== 'remedy-done') continue;
    for (const part of own(tree.findings, inHand)?.remedy.parts ?? []) price += part.price;
  }
  return price;
}

function isAdvised(act: JobEvent): boolean {
  return (act.kind === 'turn-to' || act.kind === 'start-remedy') && act.advised === true;
}
