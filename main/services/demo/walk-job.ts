import type { JobEvent, JobState } from '../../../trees/chart/index.ts';
import type { TimedEvent } from '../../../trees/review/index.ts';
import type { Adviser } from './advice.ts';
import { nextEvent, type AtBench, type Done } from './next-event.ts';
import { jobAt, numberOf, type Readings, type Spot, type Spots } from './spots.ts';
import { STORY } from './story.ts';

/** One invented job to be walked. */
export interface Walking extends Omit<AtBench, 'shownFor'> {
  readonly start: Spot;
  readonly technicianId: string;
  readonly openedAt: number;
  /** Events after which it is left on the bench. */
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

/** Walks a job from its opening to its closing, each event made on the chart, or remembered from there. */
export function walkJob(spots: Spots, adviser: Adviser, walking: Walking): Walked {
  const { start, random, technicianId, openedAt, stopAfter } = walking;
  const readings: Readings = { taken: [], against: [] };
  const at: AtBench = { ...walking, shownFor: (answer) => readings.taken[numberOf(answer) ?? -1]?.value };
  const advised = openAdvised(spots, adviser, walking);
  const events: TimedEvent[] = [];
  let [spot, moment] = [start, openedAt];
  let remedy: Walked['remedy'] = null;
  for (let seq = 0; seq < stopAfter; seq += 1) {
    const done = seq > MOST_EVENTS ? CUT_SHORT : (advised(spot, seq) ?? nextEvent(at, spot.act, spot.at.job));
    if (done === null) break;
    const { event, minutes } = done;
    moment += Math.ceil(MINUTE * minutes * (0.7 + 0.9 * random.next()));
    if (event.kind === 'answer') readings.taken[seq] = event.reading;
    readings.against[seq] = done.against;
    if (event.kind === 'start-remedy' && remedy === null) remedy = { seq, job: jobAt(spot, readings) };
    const next = spots.after(spot, event, seq, done.against);
    if (next === null) throw new Error(`demo-refused: ${JSON.stringify(event)}`);
    events.push({ at: moment, technicianId, event });
    spot = next;
  }
  return { events, after: jobAt(spot, readings), remedy };
}

/** What the technician takes from the planner: in some jobs only, at most so many acts, and only what the chart takes. */
function openAdvised(spots: Spots, adviser: Adviser, { random }: Walking) {
  const takes = random.happens(STORY.takesAdvice);
  let left: number = takes ? STORY.mostAdvised : 0;
  return (spot: Spot, seq: number): Done | null => {
    const { act } = spot;
    if (left === 0 || act.kind !== 'test' || act.purpose.kind !== 'path') return null;
    left -= 1;
    const event = adviser(spot);
    if (event === null || spots.after(spot, event, seq) === null) return null;
    return { event, minutes: minutesOf(event) };
  };
}

function minutesOf({ kind }: JobEvent): number {
  return kind === 'turn-to' ? 0.1 : 0.2;
}
