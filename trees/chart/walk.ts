import { initialTransition, transition, type SnapshotFrom } from 'xstate';
import { own } from '../document/index.ts';
import type { Chart } from './chart.ts';
import { jobEventSchema, type JobEvent } from './event.ts';
import { machineEvent, type ChartMachine } from './machine.ts';
import { placeOf } from './place.ts';
import { refusal } from './refusal.ts';
import { refuse } from './refuse.ts';
import type { Refusal } from './standing.ts';

/** A job being walked. `trail` holds the events that were not taken back, in order. */
export interface Walk {
  readonly chart: Chart;
  readonly snapshot: SnapshotFrom<ChartMachine>;
  readonly trail: readonly JobEvent[];
}

export type Advanced =
  { readonly ok: true; readonly walk: Walk } | { readonly ok: false; readonly refusal: Refusal };

export type Replayed =
  | { readonly ok: true; readonly walk: Walk }
  /** `at` is the index of the event that was refused. */
  | { readonly ok: false; readonly at: number; readonly refusal: Refusal };

/**
 * The walk of a new job with this symptom. Throws an error with code `unknown-symptom` where the tree has no such
 * symptom, which is the caller's mistake.
 */
export function startWalk(chart: Chart, symptom: string): Walk {
  if (own(chart.tree.symptoms, symptom) === undefined) {
    throw Object.assign(new Error(`The tree has no symptom "${symptom}".`), { code: 'unknown-symptom' });
  }
  const [snapshot] = initialTransition(chart.machine, { symptom });
  return { chart, snapshot, trail: [] };
}

/**
 * The walk after one more event, or why the chart does not take it here. Pure, and never throws whatever the event is:
 * one that is not shaped as an event is refused as `malformed-event`.
 */
export function advance(walk: Walk, event: JobEvent): Advanced {
  const parsed = jobEventSchema.safeParse(event);
  if (!parsed.success) {
    return refused(refusal('malformed-event', 'This is not shaped as a job event.', 'See jobEventSchema.'));
  }
  return parsed.data.kind === 'take-back' ? takeBack(walk) : step(walk, parsed.data);
}

/**
 * The walk that a job's events lead to, take-backs among them; the same events always lead to the same state. An event
 * that the chart does not take stops it. Unknown symptoms as in {@link startWalk}.
 */
export function replay(chart: Chart, symptom: string, events: readonly JobEvent[]): Replayed {
  // What a take-back leaves is the walk as it was before the event it takes back, so the walks so far are kept.
  const walks = [startWalk(chart, symptom)];
  for (const [at, event] of events.entries()) {
    const walk = walks.at(-1) ?? startWalk(chart, symptom);
    if (event.kind === 'take-back' && walks.length > 1) {
      walks.pop();
      continue;
    }
    const next = advance(walk, event);
    if (!next.ok) return { ok: false, at, refusal: next.refusal };
    walks.push(next.walk);
  }
  return { ok: true, walk: walks.at(-1) ?? startWalk(chart, symptom) };
}

function step(walk: Walk, event: JobEvent): Advanced {
  const { chart, snapshot, trail } = walk;
  const reason = refuse(chart.tree, snapshot.context, placeOf(chart.tree, snapshot.value), event);
  if (reason !== null) return refused(reason);
  const [next] = transition(chart.machine, snapshot, machineEvent(event));
  return { ok: true, walk: { chart, snapshot: next, trail: [...trail, event] } };
}

function takeBack({ chart, snapshot, trail }: Walk): Advanced {
  if (trail.length === 0) {
    return refused(refusal('nothing-to-take-back', 'Nothing was done yet.', 'Go on with the act shown.'));
  }
  const before = replay(chart, snapshot.context.job.symptom, trail.slice(0, -1));
  return before.ok ? before : refused(before.refusal);
}

function refused(reason: Refusal): Advanced {
  return { ok: false, refusal: reason };
}
