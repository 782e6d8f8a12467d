import { EXPECTED_BY, type ExpectedMinutes } from '../../trees/review/index.ts';
import type { Database } from './database.ts';

/** A symptom of a revision. */
export interface RevisionSymptom {
  readonly revisionId: string;
  readonly symptom: string;
}

/** What the revision's author expects of the symptom's path. */
export interface SymptomExpected extends RevisionSymptom {
  readonly minutes: ExpectedMinutes | null;
}

/** What the current revisions expect, kept from one run to the next: to work it out takes some tenths of a second a symptom. */
export function openExpected(db: Database) {
  const { missing } = openExpectedReader(db);
  const set = db.prepare<[string, string, number, number | null, number | null]>(
    `INSERT INTO expected_minutes (revision_id, symptom, by, to_finding, to_proof) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (revision_id, symptom)
     DO UPDATE SET by = excluded.by, to_finding = excluded.to_finding, to_proof = excluded.to_proof`,
  );
  return {
    /** Whether there are some of which it is not known. */
    isMissing: (): boolean => missing().length > 0,
    keep: db.transaction((all: readonly SymptomExpected[]): void => {
      for (const { revisionId, symptom, minutes } of all)
        set.run(revisionId, symptom, EXPECTED_BY, minutes?.toFinding ?? null, minutes?.toProof ?? null);
    }).immediate,
  };
}

interface ExpectedRow {
  readonly symptom: string;
  readonly toFinding: number | null;
  readonly toProof: number | null;
}

export function openExpectedReader(db: Database) {
  const of = db.prepare<[string, number], ExpectedRow>(
    `SELECT symptom, to_finding AS toFinding, to_proof AS toProof FROM expected_minutes
     WHERE revision_id = ? AND by = ?`,
  );
  const missing = db.prepare<[number], RevisionSymptom>(
    `SELECT revision_id AS revisionId, name AS symptom FROM tree_head
     JOIN fact_name ON fact_name.tree_id = tree_head.tree_id AND kind = 'symptom'
     WHERE NOT EXISTS (SELECT 1 FROM expected_minutes WHERE expected_minutes.revision_id = tree_head.revision_id
       AND expected_minutes.symptom = name AND by = ?) ORDER BY tree_head.tree_id, name`,
  );
  return {
    /** What is known of a revision, by symptom. */
    of: (revisionId: string): ReadonlyMap<string, ExpectedMinutes | null> =>
      new Map(of.all(revisionId, EXPECTED_BY).map((row) => [row.symptom, minutesIn(row)])),
    /** Symptoms of closed jobs of which it is not known what the current revision expects. */
    missing: (): readonly RevisionSymptom[] => missing.all(EXPECTED_BY),
  };
}

function minutesIn({ toFinding, toProof }: ExpectedRow): ExpectedMinutes | null {
  return toFinding === null || toProof === null ? null : { toFinding, toProof };
}
