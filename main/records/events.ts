import type { JobEvent, JobState } from '../../trees/chart/index.ts';
import { UNLISTED, type Tree } from '../../trees/document/index.ts';
import type { ShownFinding } from '../../trees/review/index.ts';
import type { JobSummary, StoredEvent } from '../contract/index.ts';
import { instant } from './clock.ts';
import type { Counts } from './counts.ts';
import type { Room } from './database.ts';
import type { Facts } from './facts.ts';
import { wordsOf } from './jobs.ts';
import type { Search } from './search.ts';
import type { Shown } from './shown.ts';
import type { StoredEvents } from './stored-events.ts';

/** One event to be recorded, and what the chart says the job knows after it. */
export interface NewEvent {
  readonly jobId: string;
  /** The sequence number that the caller takes the event to have. */
  readonly seq: number;
  readonly technicianId: string;
  readonly event: JobEvent;
  readonly after: JobState;
  /** The job's own tree revision. */
  readonly tree: Tree;
  /** What the bench showed, where the event takes the job's first remedy in hand. */
  readonly shown?: readonly ShownFinding[] | undefined;
}

export type Appended =
  | { readonly ok: true; readonly stored: StoredEvent; readonly closed: boolean }
  | { readonly ok: false; readonly code: 'NO_SUCH_JOB' | 'STALE_SEQUENCE' };

type Status = Pick<JobSummary, 'treeId' | 'events' | 'outcome'> & { readonly place: number };
type Words = Parameters<typeof wordsOf>[0];

export type Settle = ReturnType<typeof openStatus>;
export type Events = ReturnType<typeof openEvents>;

interface EventParts {
  readonly eventsOf: StoredEvents;
  readonly settle: Settle;
  readonly shown: Shown;
}

/** A job's events, and all that is derived from them, in one transaction. */
export function openEvents({ db, ids, clock }: Room, { eventsOf, settle, shown }: EventParts) {
  const statusOf = db.prepare<[string], Status>(
    'SELECT place, tree_id AS treeId, events, outcome FROM job_status WHERE job_id = ?',
  );
  const insert = db.prepare<[string, string, number, string, string, string, string]>(
    'INSERT INTO job_event (id, job_id, seq, at, technician_id, kind, body) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );

  return {
    of: eventsOf,
    /** Durable when it returns. Refused where another event has that number already; nothing is recorded then. */
    append: db.transaction((added: NewEvent, at: number = clock()): Appended => {
      const { jobId, seq, technicianId, event, after, tree } = added;
      const status = statusOf.get(jobId);
      if (status === undefined) return { ok: false, code: 'NO_SUCH_JOB' };
      if (status.events !== seq) return { ok: false, code: 'STALE_SEQUENCE' };
      const id = ids(at);
      const { kind, ...body } = event;
      insert.run(id, jobId, seq, instant(at), technicianId, kind, JSON.stringify(body));
      if (added.shown !== undefined) shown.add(jobId, seq, added.shown);
      settle(status, { events: seq + 1, lastAt: instant(at), after, tree });
      const closed = status.outcome === null && after.outcome !== undefined;
      return { ok: true, stored: { id, seq, at: instant(at), technicianId, event }, closed };
    }).immediate,
  };
}

/** What a job's status is brought in step with. */
export interface Settled {
  readonly events: number;
  readonly lastAt: string;
  readonly after: JobState;
  readonly tree: Tree;
}

interface Derived {
  readonly counts: Counts;
  readonly facts: Facts;
  readonly search: Search;
}

/** Brings a job's status, the counts, the facts, the tallies and the search in step with its events. The caller holds the transaction. */
export function openStatus(db: Room['db'], { counts, facts, search }: Derived) {
  const touch = db.prepare<[number, string, number]>(
    'UPDATE job_status SET events = ?, last_at = ? WHERE place = ?',
  );
  const mark = db.prepare<[string | null, string | null, string | null, number]>(
    'UPDATE job_status SET outcome = ?, finding = ?, finding_title = ? WHERE place = ?',
  );
  const wordsAt = db.prepare<[number], Words>(
    `SELECT serial, reference, family, board, technician.name AS technician, symptom_title AS symptomTitle,
       finding_title AS findingTitle
     FROM job_status JOIN job ON job.id = job_status.job_id JOIN technician ON technician.id = technician_id
     WHERE place = ?`,
  );
  const tally = db.prepare<[number, string]>('UPDATE tally SET jobs = jobs + ? WHERE what = ?');
  const moveTally = (from: string, to: string): void => {
    tally.run(-1, from);
    tally.run(1, to);
  };
  const reopen = ({ place, treeId }: Status): void => {
    counts.uncount(place, treeId);
    facts.drop(place);
    search.remove(place);
    mark.run(null, null, null, place);
    moveTally('closed', 'open');
  };
  const close = ({ place, treeId }: Status, after: JobState, tree: Tree): void => {
    const finding = foundIn(after, tree);
    mark.run(after.outcome ?? null, finding?.id ?? null, finding?.title ?? null, place);
    counts.count(place, treeId, after);
    facts.put(place, after, tree);
    const words = wordsAt.get(place);
    if (words !== undefined) search.add(place, wordsOf(words));
    moveTally('open', 'closed');
  };
  return (status: Status, { events, lastAt, after, tree }: Settled): void => {
    touch.run(events, lastAt, status.place);
    if (status.outcome !== null) reopen(status);
    if (after.outcome !== undefined) close(status, after, tree);
  };
}

/** The finding that a closed job was mended by. */
export function foundIn(
  { remedies }: JobState,
  tree: Tree,
): { readonly id: string; readonly title: string } | null {
  const mended = remedies.findLast(({ state }) => state === 'mended');
  if (mended === undefined) return null;
  if (mended.finding === UNLISTED)
    return { id: UNLISTED, title: mended.what ?? 'Something not in this tree' };
  return { id: mended.finding, title: tree.findings[mended.finding]?.title ?? mended.finding };
}
