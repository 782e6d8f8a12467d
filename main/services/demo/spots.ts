import {
  actNow,
  firstSituation,
  referenceValue,
  refuse,
  situationAfter,
  whereabouts,
  type Act,
  type Answer,
  type JobEvent,
  type JobState,
  type Place,
  type Reading,
  type Situation,
} from '../../../trees/chart/index.ts';
import type { Tree } from '../../../trees/document/index.ts';

/**
 * Where some invented job has stood: all that the chart says after its events, but for the readings, of which only the
 * results move it. In `at.job` each reading stands as the first job had it, typed as the number of its event.
 */
export interface Spot {
  readonly tree: Tree;
  readonly at: Situation;
  /** The test that was turned to, which what a job knows does not say. */
  readonly aside: string | null;
  readonly place: Place;
  readonly act: Act;
  readonly next: Map<string, Spot>;
  /** Jobs that came by since spots were last let go. */
  came: number;
}

/** The readings of one job, and the values that ratio bands were taken against, by the number of the event that gave them. */
export interface Readings {
  readonly taken: (Reading | undefined)[];
  readonly against: (number | undefined)[];
}

export type Spots = ReturnType<typeof openSpots>;

/** Spots kept at most; each is about a kilobyte. */
const MOST = 100_000;

/**
 * The chart's word on many jobs that go the same ways: where an event leads is worked out for the first job that comes there,
 * by the chart's rules but without its machine, and remembered for those after it. Spots that few came by are let go where
 * there are too many.
 */
export function openSpots(most = MOST) {
  const starts = new Map<Tree, Map<string, Spot>>();
  let kept = 0;
  const letGo = (): void => {
    kept = 0;
    for (const bySymptom of starts.values()) for (const spot of bySymptom.values()) kept += sift(spot);
  };
  return {
    /** Where a job with a symptom begins. */
    start(tree: Tree, symptom: string): Spot {
      const bySymptom = starts.get(tree) ?? new Map<string, Spot>();
      starts.set(tree, bySymptom);
      const start = bySymptom.get(symptom) ?? spotAt(tree, firstSituation(tree, symptom), null);
      bySymptom.set(symptom, start);
      return start;
    },
    /**
     * Where the event of a number leads from a spot; null where the chart does not take it there. `against` is the value that
     * its reading's ratio bands were taken against.
     */
    after(spot: Spot, event: JobEvent, seq: number, against?: number): Spot | null {
      const key = keyOf(event);
      const known = spot.next.get(key);
      if (known !== undefined) {
        known.came += 1;
        return known;
      }
      const made = spotAfter(spot, numbered(spot, event, seq, against));
      if (made === null) return null;
      spot.next.set(key, made);
      if ((kept += 1) > most) letGo();
      return made;
    },
  };
}

/** The job of a spot with the readings of one that came by it. */
export function jobAt({ at: { job } }: Spot, readings: Readings): JobState {
  const answers = (of: readonly Answer[]) => of.map((answer) => withReading(answer, readings));
  const remedies = job.remedies.map((remedy) => ({
    ...remedy,
    evidence: answers(remedy.evidence),
    proofs: answers(remedy.proofs),
  }));
  return { ...job, answers: answers(job.answers), remedies };
}

/** The number of the event that gave an answer its reading; undefined where it has none. */
export function numberOf({ reading }: Answer): number | undefined {
  return reading === undefined ? undefined : Number(reading.typed);
}

function withReading(answer: Answer, { taken, against }: Readings): Answer {
  const number = numberOf(answer);
  const reading = number === undefined ? undefined : taken[number];
  if (number === undefined || reading === undefined) return answer;
  const reference = against[number];
  return reference === undefined ? { ...answer, reading } : { ...answer, reading, reference };
}

function spotAfter({ tree, at, aside, place }: Spot, event: JobEvent): Spot | null {
  if (refuse(tree, at, place, event) !== null) return null;
  const then = situationAfter(tree, at, event);
  return spotAt(tree, then, asideAfter(aside, event, then));
}

/** A test that is turned to stays so until it is made or passed over, or the job goes on with something else. */
function asideAfter(aside: string | null, event: JobEvent, { job }: Situation): string | null {
  if (event.kind === 'turn-to') return event.test;
  if (aside === null || job.contradiction !== undefined) return null;
  const stays = event.kind === 'change' || (event.kind === 'answer' && event.test !== aside);
  return stays ? aside : null;
}

function spotAt(tree: Tree, at: Situation, aside: string | null): Spot {
  const place: Place = aside === null ? whereabouts(tree, at).place : { kind: 'aside', test: aside };
  return { tree, at, aside, place, act: actNow(tree, at, place), next: new Map(), came: 1 };
}

/** The event as it stands in the spots: its reading typed as its number, and as far from the reference as the job's own was. */
function numbered({ tree, at: { job } }: Spot, event: JobEvent, seq: number, against?: number): JobEvent {
  if (event.kind !== 'answer' || event.reading === undefined) return event;
  const reference = referenceValue(tree, job, event.test);
  const { value } = event.reading;
  const isRatio = typeof value === 'number' && typeof reference === 'number' && against !== undefined;
  const asThere = isRatio ? (value / against) * reference : value;
  return { ...event, reading: { ...event.reading, value: asThere, typed: String(seq) } };
}

/** Lets go the spots after this one that few came by, halving what the others count; gives how many are left. */
function sift({ next }: Spot): number {
  let left = 0;
  for (const [key, spot] of next) {
    spot.came >>= 1;
    if (spot.came === 0) next.delete(key);
    else left += 1 + sift(spot);
  }
  return left;
}

/** All of an event that moves the chart. A reading beyond the meter's range can be no reference. */
function keyOf(event: JobEvent): string {
  switch (event.kind) {
    case 'answer':
      return `a ${event.test} ${event.result}${event.reading?.value === 'OL' ? ' OL' : ''}`;
    case 'change':
      return `c ${event.axis} ${event.to}`;
    case 'turn-to':
      return `t ${event.test}`;
    default:
      return JSON.stringify({ ...event, advised: undefined });
  }
}
