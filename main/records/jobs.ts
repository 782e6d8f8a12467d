import type { JobSummary } from '../contract/index.ts';
import { instant } from './clock.ts';
import type { Room } from './database.ts';
import type { Facts } from './facts.ts';
import { isBlank, matches, type JobWords, type Search } from './search.ts';

/** A job to be opened; family and symptom title are those of its tree revision. */
export interface OpenedJob {
  readonly revisionId: string;
  readonly treeId: string;
  readonly family: string;
  readonly symptom: string;
  readonly symptomTitle: string;
  readonly board: string;
  readonly serial: string;
  readonly reference: string;
  readonly technicianId: string;
  readonly invented: boolean;
}

type Row = Omit<JobSummary, 'invented'> & { readonly invented: 0 | 1; readonly place: number };

/** Which page of jobs is asked for: those opened before `before`, a cursor that an earlier page gave. */
export interface Page {
  readonly status: 'open' | 'closed';
  readonly search: string;
  readonly before: string | null;
  readonly limit: number;
}

const SUMMARY = `SELECT job.id AS jobId, tree_id AS treeId, revision_id AS revisionId, family, board, serial, reference,
    symptom, symptom_title AS symptomTitle, technician_id AS technicianId, technician.name AS technician,
    opened_at AS openedAt, last_at AS lastAt, events, outcome, finding, finding_title AS findingTitle, invented, place
  FROM job_status JOIN job ON job.id = job_status.job_id JOIN technician ON technician.id = technician_id`;

export type Jobs = ReturnType<typeof openJobs>;

/** Jobs as a list shows them, newest first, and the opening of new ones. */
export function openJobs({ db, ids, clock }: Room, search: Search, places: Places) {
  const byId = db.prepare<[string], Row>(`${SUMMARY} WHERE job.id = ?`);
  const ofUnit = db.prepare<[string, string], Row>(
    `${SUMMARY} WHERE serial = ? COLLATE NOCASE AND family = ? ORDER BY place DESC LIMIT 200`,
  );
  const insertJob = db.prepare<[string, string, string, string, string, string, string, string, 0 | 1]>(
    `INSERT INTO job (id, revision_id, symptom, board, serial, reference, technician_id, opened_at, invented)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const find = (jobId: string): JobSummary | null => {
    const row = byId.get(jobId);
    return row === undefined ? null : summary(row);
  };
  return {
    find,
    list: openPages(db, search),
    ofUnit: (family: string, serial: string): JobSummary[] => ofUnit.all(serial, family).map(summary),
    start: db.transaction((job: OpenedJob, at: number = clock()): JobSummary => {
      const id = ids(at);
      const { revisionId, symptom, board, serial, reference, technicianId, invented } = job;
      const flag = invented ? 1 : 0;
      insertJob.run(id, revisionId, symptom, board, serial, reference, technicianId, instant(at), flag);
      places.add(id, job, at);
      const added = find(id);
      if (added === null) throw new Error(`job-missing: ${id} was added just now`);
      return added;
    }).immediate,
  };
}

/** The jobs of these places as a list shows them, in their order; places that no job has are passed over. */
export function openJobsAt(db: Room['db']): (places: readonly number[]) => JobSummary[] {
  const atPlace = db.prepare<[number], Row>(`${SUMMARY} WHERE place = ?`);
  return (places) =>
    places.flatMap((place) => {
      const row = atPlace.get(place);
      return row === undefined ? [] : [summary(row)];
    });
}

/** Pages of jobs. Open jobs are few and looked through; closed ones are found by the index. */
function openPages(db: Room['db'], search: Search) {
  const atPlace = db.prepare<[number], Row>(`${SUMMARY} WHERE place = ?`);
  const openBefore = db.prepare<[number, number], Row>(
    `${SUMMARY} WHERE outcome IS NULL AND place < ? ORDER BY place DESC LIMIT ?`,
  );
  const closedBefore = db.prepare<[number, number], Row>(
    `${SUMMARY} WHERE outcome IS NOT NULL AND place < ? ORDER BY place DESC LIMIT ?`,
  );
  const open = (terms: string, before: number, limit: number): readonly Row[] => {
    if (isBlank(terms)) return openBefore.all(before, limit);
    const found = openBefore.all(before, -1).filter((row) => matches(terms, wordsOf(row)));
    return found.slice(0, limit);
  };
  const closed = (terms: string, before: number, limit: number): readonly Row[] => {
    if (isBlank(terms)) return closedBefore.all(before, limit);
    return search.places(terms, before, limit).flatMap((place) => atPlace.get(place) ?? []);
  };
  return (page: Page): { readonly jobs: JobSummary[]; readonly next: string | null } => {
    const before = page.before === null ? Number.MAX_SAFE_INTEGER : Number(page.before);
    const shown = (page.status === 'open' ? open : closed)(page.search, before, page.limit);
    const last = shown.at(-1);
    const more = last !== undefined && shown.length === page.limit;
    return { jobs: shown.map(summary), next: more ? String(last.place) : null };
  };
}

type PlacedJob = Pick<OpenedJob, 'treeId' | 'family' | 'symptomTitle' | 'invented'>;
export type Places = ReturnType<typeof openPlaces>;

/** Gives each job a place that sorts by when it was opened, opens its status, and has its unit's earlier jobs know that it is back. */
export function openPlaces(db: Room['db'], facts: Pick<Facts, 'started'>) {
  const lastPlace = db
    .prepare<[number, number], number | null>(
      'SELECT max(place) FROM job_status WHERE place >= ? AND place < ?',
    )
    .pluck();
  const insertStatus = db.prepare<[number, string, string, string, string, string]>(
    `INSERT INTO job_status (place, job_id, tree_id, family, symptom_title, last_at, events)
     VALUES (?, ?, ?, ?, ?, ?, 0)`,
  );
  const tally = db.prepare<[0 | 1]>(
    "UPDATE tally SET jobs = jobs + 1 WHERE what = 'open' OR (what = 'invented' AND ? = 1)",
  );
  const free = (at: number): number => {
    const last = lastPlace.get(at * PLACES, (at + 1) * PLACES) ?? at * PLACES - 1;
    return last + 1 < (at + 1) * PLACES ? last + 1 : free(at + 1);
  };
  return {
    add(jobId: string, job: PlacedJob, at: number): number {
      const place = free(at);
      insertStatus.run(place, jobId, job.treeId, job.family, job.symptomTitle, instant(at));
      tally.run(job.invented ? 1 : 0);
      facts.started(place);
      return place;
    },
  };
}

/** Places in one millisecond; milliseconds times this stay whole numbers in a double until the year 2248. */
export const PLACES = 1024;

/** The words by which a job is found. */
export function wordsOf(
  job: Pick<
    JobSummary,
    'serial' | 'reference' | 'family' | 'board' | 'technician' | 'symptomTitle' | 'findingTitle'
  >,
): JobWords {
  const { serial, reference, family, board, technician, symptomTitle, findingTitle } = job;
  return [serial, reference, family, board, technician, symptomTitle, findingTitle ?? ''];
}

function summary({ place: _, invented, ...row }: Row): JobSummary {
  return { ...row, invented: invented === 1 };
}
