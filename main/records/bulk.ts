import { rowOf, factOf, type ShownFinding, type TimedEvent } from '../../trees/review/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { instant } from './clock.ts';
import type { Counts } from './counts.ts';
import type { Room } from './database.ts';
import { foundIn } from './events.ts';
import type { FactBlocks } from './fact-blocks.ts';
import type { FactCodes } from './fact-names.ts';
import { PLACES, wordsOf, type OpenedJob } from './jobs.ts';
import type { Search } from './search.ts';

/** A job with all its events as they come from elsewhere, in order and accepted by the chart. Moments in milliseconds UTC. */
export interface WholeJob {
  readonly job: OpenedJob;
  readonly openedAt: number;
  readonly events: readonly TimedEvent[];
  /** What the chart says that the job knows after them. */
  readonly after: JobState;
  /** The job's own revision, which is its tree's current one. */
  readonly tree: Tree;
  /** What the bench showed when the first remedy was taken in hand, and that event's number; null where none was. */
  readonly shown: { readonly seq: number; readonly findings: readonly ShownFinding[] } | null;
  /** When the unit is next brought in after the job's last event: by a job that is here too, or is still to be added. */
  readonly backAt: number | null;
}

interface Parts {
  readonly counts: Counts;
  readonly blocks: FactBlocks;
  readonly codes: FactCodes;
  readonly search: Search;
}

export type Bulk = ReturnType<typeof openBulk>;

/**
 * Adds many whole jobs at once: the same rows as opening each and appending its events one by one, with all that is derived
 * from them gathered first and written once. The caller holds the transaction, gives the jobs in the order of their opening,
 * later ones than are on record, and knows of each unit when it is back: no job on record is told so here. Until the jobs that
 * units are back with are there as well, the facts count as still to be made from the first that runs ahead, so that they are
 * made anew should no more be added.
 */
export function openBulk({ db, ids }: Pick<Room, 'db' | 'ids'>, { counts, blocks, codes, search }: Parts) {
  const insert = openInserts(db);
  const lastPlace = db.prepare<[], number | null>('SELECT max(place) FROM job_status').pluck();
  const nameOf = db.prepare<[string], string>('SELECT name FROM technician WHERE id = ?').pluck();
  const tally = db.prepare<[number, string]>('UPDATE tally SET jobs = jobs + ? WHERE what = ?');

  const setMadeTo = db.prepare<[number | null]>('UPDATE fact_state SET made_to = ?');
  let ahead: readonly { readonly place: number; readonly backAt: number }[] = [];

  const addTruth = (whole: WholeJob): string => {
    const { job, openedAt, events, shown } = whole;
    const id = ids(openedAt);
    const { revisionId, symptom, board, serial, reference, technicianId } = job;
    const flag = job.invented ? 1 : 0;
    insert.job.run(id, revisionId, symptom, board, serial, reference, technicianId, instant(openedAt), flag);
    for (const [seq, { at, technicianId: by, event }] of events.entries()) {
      const { kind, ...body } = event;
      insert.event.run(ids(at), id, seq, instant(at), by, kind, JSON.stringify(body));
    }
    if (shown !== null) insert.shown.run(id, shown.seq, JSON.stringify(shown.findings));
    return id;
  };
  const addStatus = (place: number, id: string, { job, openedAt, events, after, tree }: WholeJob): void => {
    const { treeId, family, symptomTitle } = job;
    const lastAt = instant(events.at(-1)?.at ?? openedAt);
    const finding = after.outcome === undefined ? null : foundIn(after, tree);
    const ended = [after.outcome ?? null, finding?.id ?? null, finding?.title ?? null] as const;
    insert.status.run(place, id, treeId, family, symptomTitle, lastAt, events.length, ...ended);
  };
  const words = ({ job, after, tree }: WholeJob): readonly string[] => {
    const technician = nameOf.get(job.technicianId) ?? '';
    return wordsOf({ ...job, technician, findingTitle: foundIn(after, tree)?.title ?? null });
  };

  return (jobs: readonly WholeJob[]): void => {
    db.pragma(`cache_size = -${String(CACHE)}`);
    let last = lastPlace.get() ?? -1;
    const closed: { readonly place: number; readonly whole: WholeJob }[] = [];
    for (const whole of jobs) {
      const place = placeAfter(last, whole.openedAt);
      addStatus(place, addTruth(whole), whole);
      if (whole.after.outcome !== undefined) closed.push({ place, whole });
      last = place;
    }
    counts.countMany(
      closed.map(({ place, whole }) => ({ place, treeId: whole.job.treeId, state: whole.after })),
    );
    blocks.putMany(closed.flatMap(({ place, whole }) => factRow(place, whole, codes)));
    for (const { place, whole } of closed) search.add(place, words(whole));
    const now = jobs.at(-1)?.openedAt ?? 0;
    const back = closed.map(({ place, whole }) => ({ place, backAt: whole.backAt ?? 0 }));
    ahead = [...ahead, ...back].filter(({ backAt }) => backAt > now);
    const [first] = ahead; // places ascend
    setMadeTo.run(first === undefined ? null : first.place - 1);
    tally.run(jobs.length - closed.length, 'open');
    tally.run(closed.length, 'closed');
    tally.run(jobs.filter(({ job }) => job.invented).length, 'invented');
  };
}

/** KiB of the file that a connection holds once it has added jobs at once, so that a large transaction is written once. */
const CACHE = 128 * 1024;

function openInserts(db: Room['db']) {
  return {
    job: db.prepare<[string, string, string, string, string, string, string, string, 0 | 1]>(
      `INSERT INTO job (id, revision_id, symptom, board, serial, reference, technician_id, opened_at, invented)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    ),
    event: db.prepare<[string, string, number, string, string, string, string]>(
      'INSERT INTO job_event (id, job_id, seq, at, technician_id, kind, body) VALUES (?, ?, ?, ?, ?, ?, ?)',
    ),
    shown: db.prepare<[string, number, string]>(
      'INSERT INTO belief_shown (job_id, seq, findings) VALUES (?, ?, ?)',
    ),
    status: db.prepare<
      [number, string, string, string, string, string, number, string | null, string | null, string | null]
    >(
      `INSERT INTO job_status (place, job_id, tree_id, family, symptom_title, last_at, events, outcome, finding, finding_title)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    ),
  };
}

/** The first place of the moment that is free after the last one. */
function placeAfter(last: number, openedAt: number): number {
  return Math.max(last + 1, openedAt * PLACES);
}

function factRow(
  place: number,
  { job, openedAt, events, after, tree, shown, backAt }: WholeJob,
  codes: FactCodes,
) {
  const { outcome } = after;
  if (outcome === undefined) return [];
  const { board } = job;
  const closed = { place, openedAt, board, tree, events, after: { ...after, outcome } };
  const fact = factOf({ ...closed, shown: shown?.findings ?? [], backAt }, tree);
  return [rowOf(fact, codes.of(fact))];
}
