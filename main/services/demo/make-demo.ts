import { seededIds, type Records } from '../../records/index.ts';
import { openBench } from './bench.ts';
import { seededRandom } from './random.ts';
import { DAY, visitTimes } from './visits.ts';

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
