import {
  actNow,
  courseFrom,
  firstPlace,
  firstSituation,
  refuse,
  updated,
  whereabouts,
  type Act,
  type Bench,
  type JobEvent,
  type JobState,
  type Place,
} from '../../../trees/chart/index.ts';
import { referenceOf, type Tree } from '../../../trees/document/index.ts';

/** Where a job stands on the chart. */
export interface Stand {
  readonly job: JobState;
  readonly bench: Bench;
  readonly place: Place;
  readonly act: Act;
  /** The events that are known to be taken here. */
  readonly takes: Set<string>;
  /** All of the job that bears on what is to be done. */
  readonly key: string;
}

/** What the chart says wherever all that moves it is alike. */
interface Known {
  readonly act: Act;
  /** How the proof has ended that was being made. */
  readonly proof: 'mended' | 'not-mended' | null;
  /** The events that it takes there, as far as they were asked. */
  readonly takes: Set<string>;
}

export type Stands = ReturnType<typeof openStands>;

/** Places of the chart that are remembered at most; each is less than a kilobyte. */
const MOST = 50_000;

/**
 * The chart's word on many jobs of a tree, by its rules but without its machine. Where the course is follows from the job; what is
 * to be done there (changeovers, interlocks, proofs, by far the most of the work) and whether the chart takes an event is worked
 * out once for all jobs that agree in what bears on it, and remembered.
 */
export function openStands(tree: Tree) {
  let known = new Map<string, Known>();
  const keyOf = openKeys(tree);

  const look = (job: JobState, bench: Bench, place: Place, jobKey: string): Known => {
    const key = `${placeKey(place)}|${Object.values(bench).join()}|${jobKey}`;
    const had = known.get(key);
    if (had !== undefined) return had;
    if (known.size >= MOST) known = new Map();
    const at = { job, bench, passed: [] };
    const ended = place.kind === 'proof' ? whereabouts(tree, at).job.remedies.at(-1)?.state : undefined;
    const proof = ended === 'mended' || ended === 'not-mended' ? ended : null;
    const made = { act: actNow(tree, at, place), proof, takes: new Set<string>() };
    known.set(key, made);
    return made;
  };

  const standAt = (job: JobState, bench: Bench, place: Place, key = keyOf(job)): Stand => {
    const { act, proof, takes } = look(job, bench, place, key);
    if (proof === null) return { job, bench, place, act, takes, key };
    const ended = withProof(job, proof);
    return standAt(ended, bench, placeOf(tree, ended, null));
  };

  return {
    /** Where a job with a symptom begins. */
    start(symptom: string): Stand {
      const { job, bench } = firstSituation(tree, symptom);
      return standAt(job, bench, firstPlace(tree, symptom));
    },
    /** Where an event leads from there; null where the chart does not take it. */
    after({ job, bench, place, takes, key }: Stand, event: JobEvent): Stand | null {
      const what = eventKey(event);
      if (!takes.has(what)) {
        if (refuse(tree, { job, bench, passed: [] }, place, event) !== null) return null;
        takes.add(what);
      }
      const moved = event.kind === 'change' ? { ...bench, [event.axis]: event.to } : bench;
      const then = updated(tree, job, event);
      const next = placeAfter(tree, { job, place }, event, then);
      return standAt(then, moved, next, then === job ? key : undefined);
    },
  };
}

/** The place after an event. As long as nothing is replaced, the course goes on from where it is. */
function placeAfter(
  tree: Tree,
  { job, place }: Pick<Stand, 'job' | 'place'>,
  event: JobEvent,
  then: JobState,
): Place {
  if (event.kind === 'turn-to') return { kind: 'aside', test: event.test };
  const stays = event.kind === 'change' || (event.kind === 'answer' && then.contradiction === undefined);
  if (place.kind === 'aside' && stays && !(event.kind === 'answer' && event.test === place.test))
    return place;
  const isNew = event.kind === 'change' || (event.kind === 'answer' && !isKnown(job, event.test));
  return placeOf(tree, then, place.kind === 'step' && isNew ? place : null);
}

function isKnown({ answers, skips }: JobState, test: string): boolean {
  return answers.some((answer) => answer.test === test) || skips.some((skip) => skip.test === test);
}

/** The place of a job on the chart, proofs not yet judged; `from` is a place on the path that it has come to already. */
function placeOf(tree: Tree, job: JobState, from: Place | null): Place {
  if (job.outcome !== undefined) return { kind: 'closed' };
  if (job.contradiction !== undefined) return { kind: 'contradiction' };
  const last = job.remedies.at(-1);
  if (last?.state === 'in-hand') return { kind: 'remedy', finding: last.finding };
  if (last?.state === 'proving') return { kind: 'proof', finding: last.finding };
  if (last?.state === 'mended') return { kind: 'mended' };
  return courseFrom(tree, job, from ?? firstPlace(tree, job.symptom));
}

function withProof(job: JobState, state: 'mended' | 'not-mended'): JobState {
  const last = job.remedies.at(-1);
  return last === undefined ? job : { ...job, remedies: [...job.remedies.slice(0, -1), { ...last, state }] };
}

/**
 * All of a job that bears on what is to be done at a place of the course as the bench stands: of the tests that interlocks wait for and that ratio bands are
 * taken against what they gave, whether since the last remedy, and whether it can be divided by; and how far a proof is.
 */
function openKeys(tree: Tree): (job: JobState) => string {
  const references = Object.values(tree.tests).flatMap((test) => referenceOf(test) ?? []);
  const measuredAgainst = Object.keys(tree.tests).filter((id) => {
    const test = tree.tests[id];
    return test !== undefined && referenceOf(test) !== undefined;
  });
  const interlocked = tree.interlocks.flatMap(({ until }) => Object.keys(until));
  const watched = [...new Set([...interlocked, ...references, ...measuredAgainst])];
  const slots = new Map(watched.map((test, slot) => [test, slot]));
  return (job) => {
    const seen = watched.map(() => '');
    for (const { test, result, era, reading, reference } of job.answers) {
      const slot = slots.get(test);
      if (slot === undefined) continue;
      const value = reading?.value;
      const kind = value === undefined ? '' : value === 'OL' ? 'O' : value === 0 ? 'Z' : 'V';
      seen[slot] = `${era === job.era ? result : '-'}${kind}${reference === undefined ? '' : 'R'}`;
    }
    return `${seen.join()}|${job.contradiction?.test ?? ''}|${remedyKey(job)}|${job.outcome ?? ''}`;
  };
}

function placeKey(place: Place): string {
  switch (place.kind) {
    case 'step':
      return `s ${place.step.symptom} ${place.step.step}`;
    case 'aside':
      return `a ${place.test}`;
    case 'finding':
    case 'remedy':
    case 'proof':
      return `${place.kind} ${place.finding}`;
    case 'adrift':
      return `adrift ${place.because}`;
    case 'contradiction':
    case 'mended':
    case 'closed':
      return place.kind;
  }
}

/** Which remedies were tried and how they stand; of the last one, how far its proof is. */
function remedyKey({ remedies }: JobState): string {
  const last = remedies.at(-1);
  if (last === undefined) return '';
  const tried = remedies.map(({ finding, what = '', state }) => `${finding} ${what} ${state}`).join();
  if (last.state !== 'proving' && last.state !== 'in-hand') return tried;
  return `${tried}|${last.prove.join()}|${last.proofs.map(({ test, result }) => `${test} ${result}`).join()}`;
}

/** All of an event that bears on whether it is taken, its reading being in the band of its result. */
function eventKey(event: JobEvent): string {
  switch (event.kind) {
    case 'answer':
      return `a ${event.test} ${event.result}`;
    case 'change':
      return `c ${event.axis} ${event.to}`;
    default:
      return JSON.stringify(event);
  }
}
