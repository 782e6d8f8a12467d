import { createHash } from 'node:crypto';
import { replay, standing } from '../../trees/chart/index.ts';
import type { Charts } from './charts.ts';
import type { Database } from './database.ts';
import type { Events, Settle } from './events.ts';
import { openFactLines } from './fact-lines.ts';
import type { Facts } from './facts.ts';
import type { Places } from './jobs.ts';
import type { TreeHeads } from './tree-heads.ts';
import type { TreeRevisions } from './tree-revisions.ts';

export interface Rebuilt {
  /** The derived tables that did not hold what the events say; they do now. */
  readonly differed: readonly string[];
  readonly jobs: number;
  /** Jobs whose chart no longer takes one of their events: they stand where that event found them. */
  readonly halted: readonly { readonly jobId: string; readonly seq: number; readonly code: string }[];
}

interface Parts {
  readonly db: Database;
  readonly heads: TreeHeads;
  readonly trees: TreeRevisions;
  readonly charts: Charts;
  readonly events: Events;
  readonly places: Places;
  readonly settle: Settle;
  readonly facts: Facts;
}

interface JobRow {
  readonly id: string;
  readonly revisionId: string;
  readonly symptom: string;
  readonly openedAt: string;
  readonly invented: 0 | 1;
}

/** Makes everything derived anew by replaying all events, in one transaction, and says what had differed. */
export function openRebuild(parts: Parts): () => Rebuilt {
  const { db, heads, trees, facts } = parts;
  const jobIds = db.prepare<[], string>('SELECT id FROM job ORDER BY opened_at, id').pluck();
  const replayJob = openReplay(parts);
  const digests = openDigests(db);
  return db.transaction((): Rebuilt => {
    const before = digests();
    for (const table of EMPTIED) db.exec(`DELETE FROM ${table}`);
    db.exec("INSERT INTO job_search (job_search) VALUES ('delete-all'); UPDATE tally SET jobs = 0");
    facts.clear();
    heads.rebuild(trees.tree);
    const ids = jobIds.all();
    const halted = facts.together(() => ids.flatMap((id) => replayJob(id) ?? []));
    const after = digests();
    const differed = Object.keys(after).filter((table) => before[table] !== after[table]);
    return { differed, jobs: ids.length, halted };
  }).immediate;
}

function openReplay({ db, charts, events, places, settle }: Parts) {
  const jobRow = db.prepare<[string], JobRow>(
    'SELECT id, revision_id AS revisionId, symptom, opened_at AS openedAt, invented FROM job WHERE id = ?',
  );
  return (id: string): Rebuilt['halted'][number] | null => {
    const row = jobRow.get(id);
    if (row === undefined) throw new Error(`job-missing: ${id}`);
    const { tree, chart } = charts.of(row.revisionId);
    const { symptom, openedAt, invented } = row;
    const symptomTitle = tree.symptoms[symptom]?.title ?? symptom;
    const job = { treeId: tree.id, family: tree.unit.family, symptomTitle, invented: invented === 1 };
    const place = places.add(id, job, Date.parse(openedAt));
    const stored = events.of(id);
    const recorded = stored.map(({ event }) => event);
    const replayed = replay(chart, symptom, recorded);
    const taken = replayed.ok ? replayed : replay(chart, symptom, recorded.slice(0, replayed.at));
    if (!taken.ok) throw new Error(`replay-unsteady: ${id}`);
    const status = { place, treeId: tree.id, events: 0, outcome: null };
    const lastAt = stored.at(-1)?.at ?? openedAt;
    settle(status, { events: stored.length, lastAt, after: standing(taken.walk).job, tree });
    return replayed.ok ? null : { jobId: id, seq: replayed.at, code: replayed.refusal.code };
  };
}

const EMPTIED = [
  'closed_state',
  'job_status',
  'finding_count',
  'result_count',
  'remedy_count',
  'tree_head',
  // Not made anew here: the review works it out again beside the work.
  'expected_minutes',
] as const;

// Places are left out: they only order, and jobs opened in the same millisecond may change theirs.
const ROWS: Readonly<Record<string, string>> = {
  tree_head: 'SELECT * FROM tree_head ORDER BY tree_id',
  job_status: `SELECT job_id, tree_id, family, symptom_title, last_at, events, outcome, finding, finding_title
    FROM job_status ORDER BY job_id`,
  closed_state: `SELECT job_id, closed_state.tree_id, state FROM closed_state JOIN job_status USING (place) ORDER BY job_id`,
  finding_count: 'SELECT * FROM finding_count ORDER BY tree_id, symptom, finding',
  result_count: 'SELECT * FROM result_count ORDER BY tree_id, test, finding, result',
  remedy_count: 'SELECT * FROM remedy_count ORDER BY tree_id, finding',
  tally: 'SELECT * FROM tally ORDER BY what',
};

/** A digest of each derived table, facts as they read and not by their codes. */
function openDigests(db: Database): () => Readonly<Record<string, string>> {
  const factLines = openFactLines(db);
  return () => ({
    ...Object.fromEntries(
      Object.entries(ROWS).map(([table, rows]) => [
        table,
        digestOf(linesOf(db.prepare(rows).raw().iterate())),
      ]),
    ),
    fact_block: digestOf(factLines()),
  });
}

function* linesOf(rows: Iterable<unknown>): Iterable<string> {
  for (const row of rows) yield JSON.stringify(row);
}

function digestOf(lines: Iterable<string>): string {
  const hash = createHash('sha256');
  for (const line of lines) hash.update(line).update('\n');
  return hash.digest('hex');
}
