import type { JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import {
  answersNow,
  factOf,
  isPlaceholderSerial,
  rowOf,
  type ShownFinding,
} from '../../trees/review/index.ts';
import { instant } from './clock.ts';
import type { Database } from './database.ts';
import { openFactBlocks } from './fact-blocks.ts';
import { openFactCodes } from './fact-names.ts';
import { openNextJob } from './next-job.ts';
import type { StoredEvents } from './stored-events.ts';
import type { TreeRevisions } from './tree-revisions.ts';

interface JobRow {
  readonly jobId: string;
  readonly serial: string;
  readonly family: string;
  readonly board: string;
  readonly openedAt: string;
}

interface StateRow {
  readonly place: number;
  readonly state: string;
}

interface Parts {
  readonly db: Database;
  readonly trees: Pick<TreeRevisions, 'current'>;
  readonly eventsOf: StoredEvents;
}

export type Facts = ReturnType<typeof openFacts>;

/** What the review keeps of each closed job, in step with its events. The callers hold the transaction. */
export function openFacts({ db, trees, eventsOf }: Parts) {
  const blocks = openFactBlocks(db);
  const codes = openFactCodes(db);
  const unit = openUnits(db);
  const shownOf = db.prepare<[string], string>('SELECT findings FROM belief_shown WHERE job_id = ?').pluck();
  const statesAfter = db.prepare<[string, number], StateRow>(
    'SELECT place, state FROM closed_state WHERE tree_id = ? AND place > ? ORDER BY place LIMIT 500',
  );
  const current = (treeId: string): Tree => {
    const tree = trees.current(treeId);
    if (tree === null) throw new Error(`tree-missing: "${treeId}" has jobs and no revision`);
    return tree;
  };
  const sortAgain = (treeId: string): void => {
    const tree = current(treeId);
    for (let page = statesAfter.all(treeId, -1); page.length > 0;) {
      for (const { place, state } of page) sortJob(place, JSON.parse(state) as JobState, tree);
      page = statesAfter.all(treeId, page.at(-1)?.place ?? Infinity);
    }
  };
  const sortJob = (place: number, state: JobState, tree: Tree): void => {
    const way = codes.way(tree.id, state.symptom, answersNow(tree, state));
    blocks.edit(place, (columns, at) => {
      if (columns.way[at] === way) return false;
      columns.way[at] = way;
      return true;
    });
  };

  return {
    blocks,
    codes,
    /** Adds the fact of a job that was closed in this state. `tree` is the job's own revision. */
    put(place: number, after: JobState, tree: Tree): void {
      const { outcome } = after;
      if (outcome === undefined) return;
      const job = unit.at(place);
      const events = eventsOf(job.jobId).map(({ at, ...rest }) => ({ ...rest, at: Date.parse(at) }));
      const openedAt = Date.parse(job.openedAt);
      const fact = factOf(
        {
          place,
          openedAt,
          board: job.board,
          tree,
          events,
          after: { ...after, outcome },
          shown: JSON.parse(shownOf.get(job.jobId) ?? '[]') as ShownFinding[],
          backAt: unit.backAfter(job, events.at(-1)?.at ?? openedAt),
        },
        current(tree.id),
      );
      blocks.put(rowOf(fact, codes.of(fact)));
    },
    /** Takes a job's fact out, its closing having been taken back. */
    drop: blocks.drop,
    /** Says of the unit's closed jobs that it is back, the job of this place having been opened. */
    started(place: number): void {
      const job = unit.at(place);
      const openedAt = Date.parse(job.openedAt);
      for (const closed of unit.lastClosed(job)) {
        blocks.edit(closed, ({ backAt }, at) => {
          const known = backAt[at] ?? 0;
          if (known !== 0 && known <= openedAt) return false;
          backAt[at] = openedAt;
          return true;
        });
      }
    },
    /** Sorts the results of the tree's jobs again, its bands, results or ids having changed. */
    sortAgain: (treeId: string): void => blocks.together(() => sortAgain(treeId)),
    /** Has many facts made with each block written once. */
    together: blocks.together,
    /** Empties all, for all to be made anew. */
    clear(): void {
      db.exec('DELETE FROM fact_block; DELETE FROM fact_name; DELETE FROM way');
      db.exec('UPDATE fact_state SET making = making + 1, made_to = NULL');
    },
  };
}

/** The jobs of one unit by time; a placeholder for a serial ({@link isPlaceholderSerial}) is never the unit of another job. */
function openUnits(db: Database) {
  const jobAt = db.prepare<[number], JobRow>(
    `SELECT job.id AS jobId, serial, family, board, opened_at AS openedAt
     FROM job_status JOIN job ON job.id = job_id WHERE place = ?`,
  );
  const nextOf = openNextJob(db);
  // Jobs that were closed before the unit's last opening but one know already when it was next back.
  const closedSince = db
    .prepare<[JobRow], number>(
      `SELECT place FROM job JOIN job_status ON job_id = job.id
       WHERE serial = @serial COLLATE NOCASE AND family = @family AND job.id <> @jobId
         AND outcome IS NOT NULL AND last_at < @openedAt AND last_at >= coalesce(
           (SELECT earlier.opened_at FROM job AS earlier JOIN job_status AS status ON status.job_id = earlier.id
            WHERE earlier.serial = @serial COLLATE NOCASE AND earlier.opened_at < @openedAt
              AND status.family = @family AND earlier.id <> @jobId
            ORDER BY earlier.opened_at DESC LIMIT 1), '')`,
    )
    .pluck();
  return {
    at(place: number): JobRow {
      const job = jobAt.get(place);
      if (job === undefined) throw new Error(`job-missing: nothing has the place ${String(place)}`);
      return job;
    },
    /** When the unit was next brought in after this moment; null where it has not been. */
    backAfter(job: JobRow, closedAt: number): number | null {
      const next = nextOf(job, instant(closedAt));
      return next === null ? null : Date.parse(next.openedAt);
    },
    /** Places of the closed jobs that the unit is back after with this one. */
    lastClosed: (job: JobRow): readonly number[] =>
      isPlaceholderSerial(job.serial) ? [] : closedSince.all(job),
  };
}
