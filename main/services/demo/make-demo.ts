import { compileFaultModel, type FaultModel } from '../../../trees/belief/index.ts';
import { seededIds, type Records, type WholeJob } from '../../records/index.ts';
import { likeliestBeside } from '../shown-beside.ts';
import { openAdviser } from './advice.ts';
import { seededRandom, type Random } from './random.ts';
import { openSpots } from './spots.ts';
import { HANDS, STORY, type Hand } from './story.ts';
import { unitDrawer, type UnitUnderTest } from './unit-under-test.ts';
import { bookVisits, DAY, visitTimes } from './visits.ts';
import { walkJob } from './walk-job.ts';

export interface DemoOptions {
  /** Records that hold the trees to be used already, and no job. */
  readonly records: Records;
  readonly jobs: number;
  /** The same seed, number, weeks, end and trees give the same jobs, ids included. */
  readonly seed: number;
  /** The last moment of the invented history, milliseconds UTC. */
  readonly until: number;
  readonly weeks?: number;
  /** Told after each of the invented days how many jobs there are now. */
  readonly made?: (jobs: number) => void;
}

export type DemoMade =
  | { readonly ok: true; readonly jobs: number; readonly events: number; readonly open: number }
  | {
      readonly ok: false;
      readonly code: 'NO_TREES' | 'DEMO_THERE' | 'JOBS_THERE';
      readonly message: string;
      readonly help: string;
    };

/** Jobs at the end that are still on the bench. Invented. */
const LEFT_OPEN = 4;
/** Days are written together until they hold so many jobs, then made durable: what ends the demo half-way leaves whole days. */
const JOBS_A_TRANSACTION = 1000;

/**
 * An invented shop's history, marked as invented in every job. Each event is made on the real chart, or remembered from a job
 * that went the same way, and recorded in the rows that the bench's own events make; days are written as one. What the bench
 * showed is reckoned with the history as of the day's beginning. Records that hold jobs already are left as they are.
 */
export function makeDemo(options: DemoOptions): DemoMade {
  const { records, jobs, seed, until, weeks = 52, made } = options;
  const refusal = refusalOf(records);
  if (refusal !== null) return refusal;
  const random = seededRandom(seed);
  const ids = seededIds(seededRandom(seed ^ IDS).next);
  const times = visitTimes(jobs, weeks, until, random);
  const bench = openBench(records, random, { times, from: until - weeks * 7 * DAY, until });
  records.together(() => bench.hire((times[0] ?? until) - 60_000), ids);
  let [done, events] = [0, 0];
  const writeDay = (): void => {
    const end = endOfDay(times, done);
    const day = bench.day(done, end);
    records.addJobs(day);
    events += day.reduce((sum, job) => sum + job.events.length, 0);
    done = end;
  };
  while (done < times.length) {
    const enough = Math.min(done + JOBS_A_TRANSACTION, times.length);
    records.together(() => {
      while (done < enough) writeDay();
    }, ids);
    made?.(done);
  }
  return { ok: true, jobs: times.length, events, open: records.tallies().open };
}

/** Sets the numbers that ids are made from apart from those that the jobs are drawn with. */
const IDS = 0x1d5;

/** The number of the first visit that is not on the day of this one. */
function endOfDay(times: Float64Array, visit: number): number {
  const day = Math.floor((times[visit] ?? 0) / DAY);
  let end = visit + 1;
  while (end < times.length && Math.floor((times[end] ?? 0) / DAY) === day) end += 1;
  return end;
}

/** A unit that has been here, and is to come again. */
interface Former {
  readonly tree: ReturnType<Records['trees']['list']>[number];
  readonly serial: string;
  readonly board: string;
  readonly unit: Pick<UnitUnderTest, 'symptom' | 'finding'>;
}

interface Span {
  readonly times: Float64Array;
  readonly from: number;
  readonly until: number;
}

function openBench(records: Records, random: Random, { times, from, until }: Span) {
  const trees = records.trees.list();
  const drawers = new Map(
    trees.map(({ revisionId }) => [revisionId, unitDrawer(records.charts.of(revisionId).tree, random)]),
  );
  const spots = openSpots();
  const adviser = openAdviser(Math.min(12 + Math.floor(times.length / 100), 500));
  const bookings = bookVisits<Former>(times);
  const serialOf = serials(random);
  let hired: readonly (Hand & { readonly id: string })[] = [];
  let models = new Map<string, FaultModel>();

  /** The fault model with the history of this morning. */
  const modelOf = (treeId: string, revisionId: string): FaultModel => {
    const known = models.get(treeId);
    if (known !== undefined) return known;
    const model = compileFaultModel(records.charts.of(revisionId).tree, records.historyOf(treeId));
    models.set(treeId, model);
    return model;
  };

  const unitAt = (visit: number, passed: number): Former & { readonly unit: UnitUnderTest } => {
    const former = bookings.take(visit);
    const tree = former?.tree ?? random.choose(trees);
    const unit = drawers.get(tree.revisionId)?.draw(passed, former?.unit);
    if (unit === undefined) throw new Error(`tree-missing: ${tree.treeId}`);
    const serial = former?.serial ?? serialOf(tree.treeId);
    const board = former?.board ?? (tree.boards.length === 0 ? '' : random.choose(tree.boards));
    return { tree, unit, serial, board };
  };

  const visitOf = (visit: number): WholeJob => {
    const openedAt = times[visit] ?? until;
    const passed = (openedAt - from) / (until - from);
    const hand = random.choose(hired);
    const { tree: head, unit, serial, board } = unitAt(visit, passed);
    const { treeId, revisionId } = head;
    const { tree } = records.charts.of(revisionId);
    const care = hand.care(passed);
    const walked = walkJob(spots, adviser, {
      start: spots.start(tree, unit.symptom),
      tree,
      unit,
      random,
      care,
      technicianId: hand.id,
      openedAt,
      stopAfter: visit >= times.length - LEFT_OPEN ? 2 + Math.floor(random.next() * 6) : Infinity,
    });
    const { events, after, remedy } = walked;
    const back = after.outcome === 'fixed' && random.happens(STORY.comesBack / care ** 4);
    const former = { tree: head, serial, board, unit };
    const closedAt = events.at(-1)?.at ?? openedAt;
    return {
      job: {
        revisionId,
        treeId,
        family: tree.unit.family,
        symptom: unit.symptom,
        symptomTitle: tree.symptoms[unit.symptom]?.title ?? unit.symptom,
        board,
        serial,
        reference: `D-${String(visit + 1).padStart(5, '0')}`,
        technicianId: hand.id,
        invented: true,
      },
      openedAt,
      events,
      after,
      tree,
      shown: remedy && {
        seq: remedy.seq,
        findings: likeliestBeside(modelOf(treeId, revisionId), remedy.job),
      },
      backAt: back ? bookings.book(closedAt + daysUntilBack(random) * DAY, former) : null,
    };
  };

  return {
    hire(at: number): void {
      hired = HANDS.map((hand) => ({ ...hand, id: hire(records, hand.name, at) }));
    },
    /** The jobs of one day's visits. */
    day(first: number, end: number): readonly WholeJob[] {
      models = new Map();
      return Array.from({ length: end - first }, (_, at) => visitOf(first + at));
    },
  };
}

function daysUntilBack(random: Random): number {
  const { least, most, skew } = STORY.backAfterDays;
  return least + (most - least) * random.next() ** skew;
}

function hire(records: Records, name: string, at: number): string {
  const known = records.technicians
    .list()
    .find((technician) => technician.name === name && !technician.retired);
  const technician = known ?? records.technicians.add(name, at);
  if (technician === null) throw new Error(`technician-taken: ${name}`);
  return technician.id;
}

/** Serials that no two units share: numbers of seven digits in an order of their own. */
function serials(random: Random): (treeId: string) => string {
  const MANY = 10_000_000;
  const STEP = 6_180_339; // has no divisor in common with MANY, so that every number comes once
  let number = Math.floor(random.next() * MANY);
  return (treeId) => {
    number = (number + STEP) % MANY;
    const [maker = 'u'] = treeId.split('-');
    return `${maker.toUpperCase()}-${String(number).padStart(7, '0')}`;
  };
}

function refusalOf(records: Records): DemoMade | null {
  const { invented, open, closed } = records.tallies();
  if (records.trees.list().length === 0)
    return refused('NO_TREES', 'There is no tree to invent jobs for.', 'Add a tree first.');
  const help = 'Make the demo in a database of its own.';
  if (invented > 0) return refused('DEMO_THERE', 'There are invented jobs already.', help);
  return open + closed > 0 ? refused('JOBS_THERE', 'There are real jobs here.', help) : null;
}

function refused(code: 'NO_TREES' | 'DEMO_THERE' | 'JOBS_THERE', message: string, help: string): DemoMade {
  return { ok: false, code, message, help };
}
