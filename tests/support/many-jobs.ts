import Sqlite, { type Database } from 'better-sqlite3';
import { openRecords } from '../../main/records/index.ts';
import { wordsOf } from '../../main/records/jobs.ts';
import { openSearch } from '../../main/records/search.ts';
import { addLibrary, makeDemo } from '../../main/services/index.ts';
import {
  blankColumns,
  packColumns,
  SHOWN,
  unpackColumns,
  type FactColumns,
} from '../../trees/review/index.ts';

/** Jobs that the demo makes in the ordinary way; the rest are copies of their rows under ids of their own. */
const DRAWN = 1000;

/**
 * Makes a shop of at least so many closed jobs in a new file, in the real tables, fast: the demo's first thousand jobs, copied
 * row by row. For measuring size only: what is copied is not drawn anew. Gives the number of closed jobs.
 */
export async function makeManyJobs(file: string, jobs: number): Promise<number> {
  const opening = openRecords({ file });
  if (!opening.ok) throw new Error(opening.message);
  addLibrary(opening.records);
  const drawn = Math.min(jobs, DRAWN);
  if (drawn > 0) {
    const made = makeDemo({ records: opening.records, jobs: drawn, seed: 1, until: Date.UTC(2026, 0, 31) });
    if (!made.ok) throw new Error(made.message);
  }
  await opening.records.close();
  const db = new Sqlite(file);
  db.pragma('synchronous = OFF');
  db.exec(`CREATE TEMP TABLE drawn AS SELECT job_id, place FROM job_status WHERE outcome IS NOT NULL`);
  const inDrawn = db.prepare<[], number>('SELECT count(*) FROM temp.drawn').pluck().get() ?? 0;
  const times = inDrawn === 0 ? 1 : Math.max(1, Math.ceil(jobs / inDrawn));
  for (let copy = 1; copy < times; copy += 1) db.transaction(copyJobs)(db, copy);
  multiplyCounts(db, times);
  db.transaction(multiplyFacts)(db, times);
  db.pragma('wal_checkpoint(TRUNCATE)');
  const closed = db.prepare<[], number>("SELECT jobs FROM tally WHERE what = 'closed'").pluck().get() ?? 0;
  db.close();
  return closed;
}

// A copy's ids have its number in six of their last twelve digits; its places follow those of the originals at once.
function copyJobs(db: Database, copy: number): void {
  const id = (column: string) =>
    `substr(${column}, 1, 24) || printf('%06x', ${String(copy)}) || substr(${column}, 31)`;
  const by = String(copy);
  db.exec(`
    INSERT INTO job SELECT ${id('id')}, revision_id, symptom, board, serial, reference || '-${by}', technician_id,
      opened_at, invented FROM job WHERE id IN (SELECT job_id FROM temp.drawn);
    INSERT INTO job_event SELECT ${id('id')}, ${id('job_id')}, seq, at, technician_id, kind, body
      FROM job_event WHERE job_id IN (SELECT job_id FROM temp.drawn);
    INSERT INTO belief_shown SELECT ${id('job_id')}, seq, findings
      FROM belief_shown WHERE job_id IN (SELECT job_id FROM temp.drawn);
    INSERT INTO job_status SELECT place + ${by}, ${id('job_id')}, tree_id, family, symptom_title, last_at, events, outcome,
      finding, finding_title FROM job_status WHERE job_id IN (SELECT job_id FROM temp.drawn);
    INSERT INTO closed_state SELECT place + ${by}, tree_id, state
      FROM closed_state WHERE place IN (SELECT place FROM temp.drawn);
    UPDATE tally SET jobs = jobs + (SELECT count(*) FROM temp.drawn) WHERE what IN ('closed', 'invented');
  `);
  const words = db.prepare<[], Words & { readonly place: number }>(
    `SELECT place, serial, reference || '-${by}' AS reference, family, board, technician.name AS technician,
       symptom_title AS symptomTitle, finding_title AS findingTitle
     FROM temp.drawn JOIN job_status USING (place) JOIN job ON job.id = job_status.job_id
       JOIN technician ON technician.id = technician_id`,
  );
  const search = openSearch(db);
  for (const row of words.all()) search.add(row.place + copy, wordsOf(row));
}

/** The counts of all copies are those of the drawn jobs, so many times. */
function multiplyCounts(db: Database, times: number): void {
  const by = String(times);
  db.exec(`UPDATE finding_count SET jobs = jobs * ${by}; UPDATE result_count SET jobs = jobs * ${by};
    UPDATE remedy_count SET tried = tried * ${by}, mended = mended * ${by}`);
}

/** Each fact so many times, at the places of its job's copies. A copy was opened, closed and brought back when its original was. */
export function multiplyFacts(db: Database, times: number): void {
  const blocks = db.prepare<[], { readonly day: number; readonly rows: number; readonly columns: Buffer }>(
    'SELECT day, rows, columns FROM fact_block',
  );
  const set = db.prepare<[number, Uint8Array, number]>(
    'UPDATE fact_block SET rows = ?, columns = ? WHERE day = ?',
  );
  for (const { day, rows, columns } of blocks.all()) {
    const repeated = repeatRows(unpackColumns(rows, columns), times);
    set.run(repeated.rows, packColumns(repeated), day);
  }
}

function repeatRows(block: FactColumns, times: number): FactColumns {
  const made = blankColumns(block.rows * times);
  for (const name of Object.keys(made) as (keyof FactColumns)[]) {
    if (name === 'rows') continue;
    const each = name === 'shown' ? SHOWN : 1;
    for (let row = 0; row < made.rows; row += 1) {
      const from = Math.floor(row / times) * each;
      made[name].set(block[name].subarray(from, from + each), row * each);
    }
  }
  for (let row = 0; row < made.rows; row += 1) made.place[row] = (made.place[row] ?? 0) + (row % times);
  return made;
}

type Words = Parameters<typeof wordsOf>[0];
