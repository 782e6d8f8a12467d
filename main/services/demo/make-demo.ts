import { standing } from '../../../trees/chart/index.ts';
import { seededIds, type Records } from '../../records/index.ts';
import { append } from '../append.ts';
import { startJob } from '../start-job.ts';
import { createWalks, treeOf, type Walks } from '../walks.ts';
import { nextEvent } from './next-event.ts';
import { seededRandom, type Random } from './random.ts';
import { unitDrawer, type UnitUnderTest } from './unit-under-test.ts';
import { visitTimes } from './visits.ts';

export interface DemoOptions {
  /** Records that hold the trees to be used already. */
  readonly records: Records;
  readonly jobs: number;
  /** The same seed, number, weeks, end and trees give the same jobs, ids included. */
  readonly seed: number;
  /** The last moment of the invented history, milliseconds UTC. */
  readonly until: number;
  readonly weeks?: number;
}

export type DemoMade =
  | { readonly ok: true; readonly jobs: number; readonly events: number; readonly open: number }
  | {
      readonly ok: false;
      readonly code: 'NO_TREES' | 'DEMO_THERE';
      readonly message: string;
      readonly help: string;
    };

const TECHNICIANS = [
  'Mara Quill (invented)',
  'Tobin Hale (invented)',
  'Ines Varga (invented)',
  'Rafe Lindqvist (invented)',
];
const JOBS_A_TRANSACTION = 250;
/** Jobs at the end that are still on the bench, and how often a unit comes back. Invented. */
const LEFT_OPEN = 4;
const COMES_BACK = 0.07;

/**
 * An invented shop's history, marked as invented in every job, made by the same steps as a real one: each event is made on
 * the chart and recorded by {@link append}. Records that hold invented jobs already are left as they are.
 */
export function makeDemo({ records, jobs, seed, until, weeks = 52 }: DemoOptions): DemoMade {
  const random = seededRandom(seed);
  const trees = records.trees.list();
  if (trees.length === 0)
    return refused('NO_TREES', 'There is no tree to invent jobs for.', 'Add a tree first.');
  if (records.tallies().invented > 0) {
    return refused(
      'DEMO_THERE',
      'There are invented jobs already.',
      'Make the demo in a database of its own.',
    );
  }
  const times = visitTimes(jobs, weeks, until, random);
  const ids = seededIds(random.next);
  const bench = openBench(records, random);
  const technicians = records.together(() => hire(records, (times[0] ?? until) - 60_000), ids);
  let events = 0;
  for (let done = 0; done < times.length; done += JOBS_A_TRANSACTION) {
    const batch = times.slice(done, done + JOBS_A_TRANSACTION);
    records.together(() => {
      batch.forEach((at, index) => {
        events += bench.visit(at, random.choose(technicians), done + index >= jobs - LEFT_OPEN);
      });
    }, ids);
  }
  return { ok: true, jobs: times.length, events, open: records.tallies().open };
}

function hire(records: Records, at: number): readonly string[] {
  return TECHNICIANS.map((name) => {
    const known = records.technicians
      .list()
      .find((technician) => technician.name === name && !technician.retired);
    const technician = known ?? records.technicians.add(name, at);
    if (technician === null) throw new Error(`technician-taken: ${name}`);
    return technician.id;
  });
}

interface Visit {
  readonly tree: ReturnType<Records['trees']['list']>[number];
  readonly serial: string;
  readonly board: string;
  readonly unit: Pick<UnitUnderTest, 'symptom' | 'finding'>;
}

function openBench(records: Records, random: Random) {
  const walks = createWalks();
  const trees = records.trees.list();
  const drawers = new Map(
    trees.map(({ revisionId }) => [revisionId, unitDrawer(records.charts.of(revisionId).tree, random)]),
  );
  const fixed: Visit[] = [];
  let tickets = 0;

  return {
    /** One visit of one unit; gives the number of its events. */
    visit(at: number, technicianId: string, leftOpen: boolean): number {
      const former = fixed.length > 0 && random.happens(COMES_BACK) ? takeOne(fixed, random) : undefined;
      tickets += 1;
      const tree = former?.tree ?? random.choose(trees);
      const unit = drawers.get(tree.revisionId)?.draw(former?.unit);
      if (unit === undefined) throw new Error(`tree-missing: ${tree.treeId}`);
      const serial = former?.serial ?? serialOf(tree.treeId, random);
      const board = former?.board ?? (tree.boards.length === 0 ? '' : random.choose(tree.boards));
      const ticket = { revisionId: tree.revisionId, symptom: unit.symptom, board, serial, technicianId };
      const started = startJob(
        records,
        { ...ticket, reference: `D-${String(tickets).padStart(5, '0')}` },
        true,
        at,
      );
      if (!started.ok) throw new Error(`demo-start: ${started.trouble.message}`);
      const stopAfter = leftOpen ? 2 + Math.floor(random.next() * 6) : Infinity;
      const walked = walkJob(records, walks, {
        jobId: started.value.jobId,
        technicianId,
        openedAt: at,
        unit,
        random,
        stopAfter,
      });
      if (walked.fixed) fixed.push({ tree, serial, board, unit });
      if (fixed.length > 200) fixed.shift();
      return walked.events;
    },
  };
}

interface Walking {
  readonly jobId: string;
  readonly technicianId: string;
  readonly openedAt: number;
  readonly unit: UnitUnderTest;
  readonly random: Random;
  readonly stopAfter: number;
}

function walkJob(
  records: Records,
  walks: Walks,
  { jobId, technicianId, openedAt, unit, random, stopAfter }: Walking,
) {
  let moment = openedAt;
  for (let seq = 0; seq < stopAfter; seq += 1) {
    const at = walks.at(records, jobId, seq);
    if (!at.ok) throw new Error(`demo-walk: ${jobId}: ${at.code}`);
    const now = standing(at.live.walk);
    // No visit goes on for ever: a shop passes such a unit on.
    const next = seq > MOST_EVENTS ? CUT_SHORT : nextEvent(treeOf(at.live), now, unit, random);
    if (next === null)
      return { events: seq, fixed: now.act.kind === 'closed' && now.act.outcome === 'fixed' };
    moment += Math.ceil(60_000 * next.minutes * (0.7 + 0.9 * random.next()));
    const appended = append(records, walks, { jobId, seq, technicianId, event: next.event }, moment);
    if (!appended.ok) throw new Error(`demo-refused: ${next.event.kind}: ${appended.trouble.message}`);
    if (seq > MOST_EVENTS) return { events: seq + 1, fixed: false };
  }
  return { events: stopAfter, fixed: false };
}

const MOST_EVENTS = 150;
const CUT_SHORT = { event: { kind: 'close', outcome: 'passed-on' }, minutes: 1 } as const;

function takeOne<T>(from: T[], random: Random): T | undefined {
  const [one] = from.splice(Math.floor(random.next() * from.length), 1);
  return one;
}

function serialOf(treeId: string, random: Random): string {
  const [maker = 'u'] = treeId.split('-');
  return `${maker.toUpperCase()}-${String(Math.floor(random.next() * 1e6)).padStart(6, '0')}`;
}

function refused(code: 'NO_TREES' | 'DEMO_THERE', message: string, help: string): DemoMade {
  return { ok: false, code, message, help };
}
