import { courseFrom, firstSituation, safetyMove, updated, whereabouts } from '../chart/index.ts';
import type { JobEvent, JobState } from '../chart/index.ts';
import { own, type Tree } from '../document/index.ts';
import { stepsAhead } from './evaluate-ahead.ts';
import { forgetter, needsEvidence } from './evaluate-forget.ts';
import { situationAt, type Spot } from './evaluate-leg.ts';
import type { World } from './evaluate-world.ts';

/** Spots as the sweep meets them: equal keys go on equally, and a spot's rank is lower than that of all that follow it. */
export interface Spots {
  readonly first: Spot;
  /** The spot that this result of the test made now leads to. */
  readonly after: (spot: Spot, test: string, result: string) => Spot;
  readonly key: (spot: Spot) => string;
  readonly rank: (spot: Spot) => number;
}

/** Ranks leave room for this many answers. */
const ANSWERS = 1e6;

export function spotsOf(world: World): Spots {
  const forget = forgetter(world);
  const { tree, symptom, goal } = world;
  const isOrdered = needsEvidence(world);
  const start = { ...firstSituation(tree, symptom), passed: [] };
  return {
    first: { bench: start.bench, ...whereabouts(tree, start) },
    after(spot, test, result) {
      const job = updated(tree, spot.job, answerEvent(tree, test, result));
      // Without remedies the course only goes onward, and may have forgotten what led to where it is.
      const at =
        goal === 'isolate'
          ? { job, place: courseFrom(tree, job, spot.place) }
          : whereabouts(tree, situationAt({ ...spot, job }));
      return forget(inHand(world, { bench: spot.bench, ...at }));
    },
    key: (spot) =>
      [placeKey(spot), benchKey(spot), ...answerKeys(spot.job, isOrdered), triedKey(spot)].join(' '),
    rank: goal === 'isolate' ? onwardRank(tree) : eraRank,
  };
}

/** At a finding the remedy is taken in hand at once, unless safety comes first. */
function inHand({ tree, goal }: World, spot: Spot): Spot {
  const { place, job, bench } = spot;
  if (goal === 'isolate' || place.kind !== 'finding' || safetyMove(tree, situationAt(spot)) !== null)
    return spot;
  const started = updated(tree, job, { kind: 'start-remedy', finding: place.finding });
  return { job: started, bench, place: { kind: 'remedy', finding: place.finding } };
}

function answerEvent(tree: Tree, test: string, result: string): JobEvent {
  const event = { kind: 'answer' as const, test, result };
  if (own(tree.tests, test)?.reading === undefined) return event;
  return { ...event, reading: READING };
}

/** Stands for whatever reading gives the result: the chart's course goes by the result alone. */
const READING = { value: 1, typed: '1', accuracy: { percent: 0, constant: 0 } };

function placeKey({ place }: Spot): string {
  switch (place.kind) {
    case 'step':
      return `${place.step.symptom}/${place.step.step}`;
    case 'finding':
    case 'remedy':
    case 'proof':
      return `${place.kind}:${place.finding}`;
    case 'aside':
    case 'adrift':
    case 'contradiction':
    case 'mended':
    case 'closed':
      return place.kind;
  }
}

function benchKey({ bench }: Spot): string {
  return Object.values(bench).join(',');
}

function answerKeys({ answers, era }: JobState, isOrdered: boolean): readonly string[] {
  const keys = answers.map((answer) => `${answer.test}${answer.era === era ? '=' : '~'}${answer.result}`);
  return isOrdered ? keys : keys.sort();
}

function triedKey({ job }: Spot): string {
  return job.remedies
    .map(
      ({ finding, state, prove }) =>
        `${finding}=${state}${state === 'proving' || state === 'in-hand' ? prove.join() : ''}`,
    )
    .sort()
    .join(' ');
}

/** The further onward the later; at one step the more answers the later. */
function onwardRank(tree: Tree): Spots['rank'] {
  const { turn } = stepsAhead(tree);
  return ({ place, job }) => turn(place) * ANSWERS + job.answers.length;
}

/**
 * Remedies first, then whether the proof is being made, the course walked or a remedy in hand; at each of these every test
 * made adds an answer or gives one anew since the last remedy.
 */
function eraRank({ job, place }: Spot): number {
  const fresh = job.answers.filter(({ era }) => era === job.era);
  return (job.era * 4 + phase(place.kind)) * ANSWERS + job.answers.length + fresh.length;
}

function phase(kind: Spot['place']['kind']): number {
  if (kind === 'proof') return 0;
  return kind === 'remedy' ? 2 : 1;
}
