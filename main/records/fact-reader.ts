import Sqlite from 'better-sqlite3';
import type { History } from '../../trees/belief/index.ts';
import { columnsOver, type ExpectedMinutes, type FactColumns, type Facts } from '../../trees/review/index.ts';
import type { JobSummary } from '../contract/index.ts';
import { countRows } from './count-rows.ts';
import type { Database } from './database.ts';
import { openExpectedReader, type RevisionSymptom } from './expected.ts';
import { NO_NAMES, openNameReader } from './fact-names.ts';
import { openJobsAt } from './jobs.ts';
import { openNextJob } from './next-job.ts';
import { openTallies } from './tallies.ts';

/** A tree's current revision. */
export interface CurrentRevision {
  readonly treeId: string;
  readonly revisionId: string;
}

/** Reads what the review is made of, beside the work: on a connection of its own that writes nothing and holds no read open. */
export interface FactReader {
  /** All facts as they are recorded now; what did not change since the last call is the very same object. */
  readonly facts: () => Facts;
  /** Whether every closed job has its fact; not so for a while after the program that first keeps them was started. */
  readonly isComplete: () => boolean;
  readonly current: () => readonly CurrentRevision[];
  /** The exact bytes of a revision. Throws where there is none of that id. */
  readonly bytesOf: (revisionId: string) => Uint8Array;
  /** The counts of a tree, sorted by its current revision. */
  readonly historyOf: (treeId: string) => History;
  /** What a revision's author expects, by symptom, as far as it has been worked out. */
  readonly expectedOf: (revisionId: string) => ReadonlyMap<string, ExpectedMinutes | null>;
  /** Symptoms of closed jobs of which it is still to be worked out what the current revision expects. */
  readonly unexpected: () => readonly RevisionSymptom[];
  /** Names of technicians by id, retired ones among them. */
  readonly technicians: () => ReadonlyMap<string, string>;
  /** Whether some of the jobs were made by the demo. */
  readonly hasInvented: () => boolean;
  /** The jobs of these places in their order. */
  readonly jobsAt: (places: readonly number[]) => JobSummary[];
  /** The job that a closed job's unit was next brought in with; null where it has not been. */
  readonly nextJob: (closed: JobSummary) => string | null;
  /** Has all that is read in `read` be of one moment, whatever is recorded meanwhile. */
  readonly atOneMoment: <T>(read: () => T) => T;
  readonly close: () => void;
}

/** Opens a reader of the records in `file`, which must be there and migrated. */
export function openFactReader(file: string): FactReader {
  const db = new Sqlite(file, { readonly: true, fileMustExist: true, timeout: 5000 });
  const current = db.prepare<[], CurrentRevision>(
    'SELECT tree_id AS treeId, revision_id AS revisionId FROM tree_head ORDER BY tree_id',
  );
  const bytesOf = db.prepare<[string], Buffer>('SELECT bytes FROM tree_revision WHERE id = ?').pluck();
  const technicians = db.prepare<[], [string, string]>('SELECT id, name FROM technician').raw();
  const madeTo = db.prepare<[], number | null>('SELECT made_to FROM fact_state').pluck();
  const tallies = openTallies(db);
  const expected = openExpectedReader(db);
  const nextOf = openNextJob(db);
  return {
    facts: openLoading(db),
    isComplete: () => madeTo.get() === null,
    current: () => current.all(),
    bytesOf(revisionId) {
      const bytes = bytesOf.get(revisionId);
      if (bytes === undefined) throw new Error(`revision-missing: ${revisionId}`);
      return bytes;
    },
    historyOf: countRows(db).of,
    expectedOf: expected.of,
    unexpected: expected.missing,
    technicians: () => new Map(technicians.all()),
    hasInvented: () => tallies().invented > 0,
    jobsAt: openJobsAt(db),
    nextJob: (closed) => nextOf(closed, closed.lastAt)?.jobId ?? null,
    atOneMoment: (read) => db.transaction(read)(),
    close: () => void db.close(),
  };
}

interface State {
  readonly version: number;
  readonly making: number;
}

interface BlockRow {
  readonly day: number;
  readonly rows: number;
  readonly columns: Buffer<ArrayBuffer>;
}

/** Loads the blocks, names and ways that are newer than what was loaded before, all of one moment. */
function openLoading(db: Database): () => Facts {
  const state = db.prepare<[], State>('SELECT version, making FROM fact_state');
  const changed = db.prepare<[number], BlockRow>(
    'SELECT day, rows, columns FROM fact_block WHERE version > ?',
  );
  const reader = openNameReader(db);
  const days = new Map<number, FactColumns>();
  let seen: State | null = null;
  let facts = NO_FACTS;

  const load = db.transaction((): Facts => {
    const now = state.get() ?? { version: 0, making: 0 };
    if (now.making === seen?.making && now.version === seen.version) return facts;
    if (now.making !== seen?.making) {
      days.clear();
      facts = NO_FACTS;
      seen = null;
    }
    for (const { day, rows, columns } of changed.iterate(seen?.version ?? -1)) {
      days.set(day, columnsOver(rows, columns));
    }
    seen = now;
    const blocks = [...days].sort(([a], [b]) => a - b).map(([, columns]) => columns);
    return { blocks, names: reader.names(facts.names), ways: reader.ways(facts.ways) };
  });
  return () => (facts = load());
}

const NO_FACTS: Facts = { blocks: [], names: NO_NAMES, ways: [undefined] };
