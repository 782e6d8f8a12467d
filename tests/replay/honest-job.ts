import {
  advance,
  standing,
  startWalk,
  type Chart,
  type JobEvent,
  type Outcome,
  type Walk,
} from '../../trees/chart/index.ts';
import type { JobRecord, ReplayEnd } from '../../trees/replay/index.ts';
import { answerWith } from '../chart/walking.ts';

/** A job as the records have it once it is closed, and its walk just before it was closed. */
export interface ClosedJob {
  readonly record: JobRecord;
  readonly before: Walk;
}

/** A closed job of these events. Throws where the chart refuses one. */
export function closedJob(
  chart: Chart,
  symptom: string,
  events: readonly JobEvent[],
  outcome: Outcome,
): ClosedJob {
  let walk = startWalk(chart, symptom);
  for (const event of events) {
    const next = advance(walk, event);
    if (!next.ok) throw new Error(`${JSON.stringify(event)}: ${next.refusal.message}`);
    walk = next.walk;
  }
  const record: JobRecord = {
    chart,
    symptom,
    events: [...events, { kind: 'close', outcome }],
    outcome,
    finding: outcome === 'fixed' ? (walk.snapshot.context.job.remedies.at(-1)?.finding ?? null) : null,
  };
  return { record, before: walk };
}

/**
 * A job whose technician does just what is asked, with results, remedies that fail and things taken back by the throws,
 * and closes where they end.
 */
export function honestJob(chart: Chart, symptom: string, throws: readonly number[]): ClosedJob {
  const events: JobEvent[] = [];
  let walk = startWalk(chart, symptom);
  const make = (event: JobEvent): boolean => {
    const next = advance(walk, event);
    if (!next.ok) return false;
    walk = next.walk;
    events.push(event);
    return true;
  };
  for (const dice of throws) {
    const event = asAsked(walk, dice);
    if (event === null || !make(event)) break;
    // What is taken back never was; the same act is asked again.
    if (dice % 7 === 0) make({ kind: 'take-back' });
  }
  const outcome = standing(walk).act.kind === 'mended' ? 'fixed' : 'passed-on';
  return closedJob(chart, symptom, events, outcome);
}

function asAsked(walk: Walk, dice: number): JobEvent | null {
  const { act } = standing(walk);
  switch (act.kind) {
    case 'change':
      return { kind: 'change', axis: act.axis, to: act.change.to };
    case 'test': {
      const results = Object.keys(walk.chart.tree.tests[act.test]?.results ?? {});
      return answerWith(walk, act.test, results[dice % results.length] ?? '');
    }
    case 'finding':
      return dice % 5 === 0 ? null : { kind: 'start-remedy', finding: act.finding };
    case 'remedy':
      return dice % 11 === 0 ? { kind: 'give-up-remedy', reason: 'No part.' } : { kind: 'remedy-done' };
    default:
      return null;
  }
}

/**
 * Where a job that was walked as asked ended, from where its chart stood when it was closed: at a finding also where its
 * remedy was in hand, being proved, or had mended the unit.
 */
export function endOf({ before }: Pick<ClosedJob, 'before'>): ReplayEnd {
  const { act, job } = standing(before);
  const remedy = job.remedies.at(-1);
  if (remedy !== undefined && ['in-hand', 'proving', 'mended'].includes(remedy.state)) {
    return { kind: 'finding', finding: remedy.finding };
  }
  switch (act.kind) {
    case 'finding':
      return { kind: 'finding', finding: act.finding };
    case 'test':
      return { kind: 'stops', test: act.test, because: 'never-made' };
    case 'adrift':
      return { kind: 'adrift', because: act.because };
    case 'barred':
      return { kind: 'barred', interlock: act.interlock };
    case 'change':
      return endOf({ before: changed(before) });
    default:
      throw new Error(`closed at ${act.kind}`);
  }
}

function changed(walk: Walk): Walk {
  const { act } = standing(walk);
  if (act.kind !== 'change') throw new Error('no changeover is asked');
  const next = advance(walk, { kind: 'change', axis: act.axis, to: act.change.to });
  if (!next.ok) throw new Error(next.refusal.message);
  return next.walk;
}
