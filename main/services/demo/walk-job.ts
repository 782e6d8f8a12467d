import type { JobEvent, JobState } from '../../../trees/chart/index.ts';
import type { TimedEvent } from '../../../trees/review/index.ts';
import type { Adviser } from './advice.ts';
import { nextEvent, type AtBench, type Done } from './next-event.ts';
import type { Stand, Stands } from './stands.ts';
import { STORY } from './story.ts';

/** One invented job to be walked. */
export interface Walking extends AtBench {
  readonly technicianId: string;
  readonly openedAt: number;
  /** Events after which it is left on the bench, if not before its closing; Infinity where it is closed. */
  readonly stopAfter: number;
}

export interface Walked {
  readonly events: readonly TimedEvent[];
  readonly after: JobState;
  /** The first remedy's event, and what the job knew when it was taken in hand. */
  readonly remedy: { readonly seq: number; readonly job: JobState } | null;
}

// No visit goes on for ever: a shop passes such a unit on.
const MOST_EVENTS = 150;
const CUT_SHORT: Done = { event: { kind: 'close', outcome: 'passed-on' }, minutes: 1 };
const MINUTE = 60_000;

/** Walks a job from its opening to its closing by the chart's rules. */
export function walkJob(stands: Stands, adviser: Adviser, walking: Walking): Walked {
  const { unit, random, technicianId, openedAt, stopAfter } = walking;
  const advised = openAdvised(stands, adviser, walking);
  const events: TimedEvent[] = [];
  let [stand, moment] = [stands.start(unit.symptom), openedAt];
  let remedy: Walked['remedy'] = null;
  for (let seq = 0; seq < stopAfter; seq += 1) {
    const done = seq > MOST_EVENTS ? CUT_SHORT : (advised(stand) ?? nextEvent(walking, stand.act, stand.job));
    if (done === null) break;
    const { event, minutes } = done;
    if (event.kind === 'close' && stopAfter < Infinity) break;
    moment += Math.ceil(MINUTE * minutes * (0.7 + 0.9 * random.next()));
    if (event.kind === 'start-remedy') remedy ??= { seq, job: stand.job };
    const next = stands.after(stand, event);
    if (next === null) throw new Error(`demo-refused: ${JSON.stringify(event)}`);
    events.push({ at: moment, technicianId, event });
    stand = next;
  }
  return { events, after: stand.job, remedy };
}

/** What the technician takes from the planner: asked in some jobs only, so many times at most, and only what the chart takes. */
function openAdvised(stands: Stands, adviser: Adviser, { tree, random }: Walking) {
  let left: number = random.happens(STORY.asksPlanner) ? STORY.mostAsked : 0;
  return (stand: Stand): Done | null => {
    const { act } = stand;
    if (left === 0 || act.kind !== 'test' || act.purpose.kind !== 'path') return null;
    left -= 1;
    const event = adviser(tree, stand);
    if (event === null || stands.after(stand, event) === null) return null;
    return { event, minutes: minutesOf(event) };
  };
}

function minutesOf({ kind }: JobEvent): number {
  return kind === 'turn-to' ? 0.1 : 0.2;
}
