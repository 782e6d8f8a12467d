import {
  actNow,
  firstSituation,
  situationAfter,
  whereabouts,
  type AdriftBecause,
  type Act,
  type Chart,
  type JobEvent,
  type Situation,
} from '../chart/index.ts';
import { own, type Tree } from '../document/index.ts';
import { answerAgain, type Wanting } from './answer-again.ts';
import type { RecordedJob } from './recorded.ts';

/** Where a job comes to when it is replayed on a tree. */
export type ReplayEnd =
  | { readonly kind: 'finding'; readonly finding: string }
  /** A test is asked to which the job has no answer; `result` is what it gave at the time, where that is of no use now. */
  | { readonly kind: 'stops'; readonly test: string; readonly because: Wanting; readonly result?: string }
  | { readonly kind: 'adrift'; readonly because: AdriftBecause }
  | { readonly kind: 'barred'; readonly interlock: number }
  /** The tree has no such symptom. */
  | { readonly kind: 'no-symptom'; readonly symptom: string };

/** One thing done on the way. Minutes are the tree's. */
export type ReplayStep =
  | {
      readonly kind: 'test';
      readonly test: string;
      readonly result: string;
      /** The raw reading, in the test's SI unit; null where the result was chosen. */
      readonly value: number | 'OL' | null;
      readonly minutes: number;
    }
  /** Skipped as in the job; `as` is the result it went on as, null where the path was left. */
  | { readonly kind: 'skip'; readonly test: string; readonly as: string | null; readonly minutes: number }
  | {
      readonly kind: 'change';
      readonly axis: string;
      readonly from: string;
      readonly to: string;
      readonly minutes: number;
    }
  /** A remedy that was done in the job too, and did not mend the unit. */
  | { readonly kind: 'remedy'; readonly finding: string; readonly minutes: number };

export interface ReplayedWalk {
  readonly steps: readonly ReplayStep[];
  /** Tests, changeovers and remedies done in vain, up to the end. */
  readonly minutes: number;
  readonly end: ReplayEnd;
}

type Next =
  | { readonly end: ReplayEnd }
  | { readonly end: null; readonly event: JobEvent; readonly step: ReplayStep | null };

/** No sound chart asks for so much; one that does has a bug. */
const MOST_ACTS = 2000;

/**
 * Walks a recorded job on a tree's chart, act by act as the chart says: changeovers are made, tests get the answer that
 * the job recorded. At a finding the walk ends, except where its remedy is the very one that the job did next and that did
 * not mend the unit: then it is done again and the walk goes on with what was answered after it.
 */
export function walkAgain({ tree }: Chart, recorded: RecordedJob): ReplayedWalk {
  const { symptom } = recorded.record;
  if (own(tree.symptoms, symptom) === undefined) {
    return { steps: [], minutes: 0, end: { kind: 'no-symptom', symptom } };
  }
  const steps: ReplayStep[] = [];
  let at = firstSituation(tree, symptom);
  for (let acts = 0; acts < MOST_ACTS; acts += 1) {
    const next = nextOf(tree, at, recorded);
    if (next.end !== null) {
      return { steps, minutes: steps.reduce((sum, { minutes }) => sum + minutes, 0), end: next.end };
    }
    at = situationAfter(tree, at, next.event);
    if (next.step !== null) steps.push(next.step);
  }
  throw new Error(`replay-endless: symptom ${symptom} comes to no end in ${String(MOST_ACTS)} acts`);
}

function nextOf(tree: Tree, at: Situation, recorded: RecordedJob): Next {
  const act = actNow(tree, at, whereabouts(tree, at).place);
  switch (act.kind) {
    case 'change':
      return changeMade(act);
    case 'test':
      return testAnswered(tree, at, recorded, act);
    case 'finding':
      return atFinding(at, recorded, act.finding);
    case 'remedy': {
      const minutes = own(tree.findings, act.finding)?.remedy.minutes ?? 0;
      return going({ kind: 'remedy-done' }, { kind: 'remedy', finding: act.finding, minutes });
    }
    case 'mended':
      return { end: { kind: 'finding', finding: act.finding } };
    case 'adrift':
      return { end: { kind: 'adrift', because: act.because } };
    case 'barred':
      return { end: { kind: 'barred', interlock: act.interlock } };
    case 'contradiction':
    case 'closed':
      throw new Error(`replay-astray: nothing that is answered here leads to "${act.kind}"`);
  }
}

function changeMade({ axis, change: { from, to, minutes } }: Extract<Act, { kind: 'change' }>): Next {
  return going({ kind: 'change', axis, to }, { kind: 'change', axis, from, to, minutes });
}

function testAnswered(
  tree: Tree,
  { job }: Situation,
  recorded: RecordedJob,
  { test, purpose }: Extract<Act, { kind: 'test' }>,
): Next {
  const again = answerAgain(tree, job, recorded, test, purpose.kind);
  if (again.kind === 'wanting') {
    const { because, result } = again;
    return { end: { kind: 'stops', test, because, ...(result === undefined ? {} : { result }) } };
  }
  const { event } = again;
  if (event.kind === 'skip') return going(event, { kind: 'skip', test, as: event.as ?? null, minutes: 0 });
  const { result, reading } = event;
  return going(event, {
    kind: 'test',
    test,
    result,
    value: reading?.value ?? null,
    minutes: minutesOf(tree, test),
  });
}

function atFinding({ job }: Situation, { eras }: RecordedJob, finding: string): Next {
  const done = eras[job.era]?.remedy;
  const isInVain = done?.finding === finding && done.mended === false;
  return isInVain ? going({ kind: 'start-remedy', finding }, null) : { end: { kind: 'finding', finding } };
}

function minutesOf(tree: Tree, test: string): number {
  return own(tree.tests, test)?.minutes ?? 0;
}

function going(event: JobEvent, step: ReplayStep | null): Next {
  return { end: null, event, step };
}
