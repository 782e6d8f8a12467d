import { replay, standing } from '../../trees/chart/index.ts';
import type { Charts } from './charts.ts';
import type { Database } from './database.ts';
import type { Facts } from './facts.ts';
import { failureOf } from './failure.ts';
import type { StoredEvents } from './stored-events.ts';

interface ClosedRow {
  readonly place: number;
  readonly jobId: string;
  readonly revisionId: string;
  readonly symptom: string;
}

interface Parts {
  readonly db: Database;
  readonly charts: Charts;
  readonly eventsOf: StoredEvents;
  readonly facts: Facts;
}

/** How the making of facts stands for jobs that were closed before there were any. */
export interface FactMaking {
  /** Whether every closed job has its fact. */
  readonly isDone: () => boolean;
  /** Makes all that are still to be made, now. */
  readonly finish: () => void;
  /** Makes no more until the records are opened again. */
  readonly stop: () => void;
}

/** How long one slice may take, the pause after it in which the bench has its turn, and that after one that failed (milliseconds). */
const SLICE = 15;
const PAUSE = 25;
const LONG_PAUSE = 10_000;

/**
 * Makes the facts that a migration has left to be made, by replaying jobs in the order of their opening: in slices beside the
 * work, each in one transaction with how far it has come. A job that is closed in the meantime gets its fact then.
 */
export function openFactMaking(parts: Parts): FactMaking {
  const { db } = parts;
  const madeTo = db.prepare<[], number | null>('SELECT made_to FROM fact_state').pluck();
  const isDone = (): boolean => madeTo.get() === null;
  const slice = openSlice(parts);
  let timer: NodeJS.Timeout | undefined;
  const turn = (): void => {
    if (!db.open) return;
    const pause = pauseAfter(slice);
    if (pause !== null) timer = setTimeout(turn, pause).unref();
  };
  if (!isDone()) timer = setTimeout(turn, PAUSE).unref();
  return {
    isDone,
    finish: () => void (isDone() || slice(() => true)),
    stop: () => clearTimeout(timer),
  };
}

/** Makes one slice; how long to pause before the next one, null where all facts are made. */
function pauseAfter(slice: ReturnType<typeof openSlice>): number | null {
  const until = performance.now() + SLICE;
  try {
    return slice(() => performance.now() < until) ? null : PAUSE;
  } catch (error) {
    // A full disk or a lock of another program's: the bench says so, and here it may go later.
    if (failureOf(error) === null) throw error;
    return LONG_PAUSE;
  }
}

/** Makes facts while it may, one at least; true once all are made. */
function openSlice({ db, charts, eventsOf, facts }: Parts): (mayGoOn: () => boolean) => boolean {
  const madeTo = db.prepare<[], number | null>('SELECT made_to FROM fact_state').pluck();
  const setMadeTo = db.prepare<[number | null]>('UPDATE fact_state SET made_to = ?');
  const closedAfter = db.prepare<[number], ClosedRow>(
    `SELECT place, job_id AS jobId, revision_id AS revisionId, symptom
     FROM job_status JOIN job ON job.id = job_id WHERE outcome IS NOT NULL AND place > ? ORDER BY place LIMIT 1`,
  );
  const make = ({ place, jobId, revisionId, symptom }: ClosedRow): void => {
    const { tree, chart } = charts.of(revisionId);
    const events = eventsOf(jobId).map(({ event }) => event);
    const walked = replay(chart, symptom, events);
    if (walked.ok) facts.put(place, standing(walked.walk).job, tree);
  };
  return db.transaction((mayGoOn: () => boolean): boolean =>
    facts.together(() => {
      for (let place = madeTo.get() ?? null; place !== null;) {
        const job = closedAfter.get(place);
        if (job !== undefined) make(job);
        place = job?.place ?? null;
        setMadeTo.run(place);
        if (place !== null && !mayGoOn()) return false;
      }
      return true;
    }),
  ).immediate;
}
