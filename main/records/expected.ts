import { EXPECTED_BY, type ExpectedMinutes } from '../../trees/review/index.ts';
import type { Database } from './database.ts';

/** What a revision's author expects, by symptom. */
export interface RevisionExpected {
  readonly revisionId: string;
  readonly symptoms: Readonly<Record<string, ExpectedMinutes | null>>;
}

/** What the current revisions expect, kept from one run to the next: to work it out takes some tenths of a second a symptom. */
export function openExpected(db: Database) {
  const { missing } = openExpectedReader(db);
  const set = db.prepare<[string, number, string]>(
    `INSERT INTO expected_minutes (revision_id, by, symptoms) VALUES (?, ?, ?)
     ON CONFLICT (revision_id) DO UPDATE SET by = excluded.by, symptoms = excluded.symptoms`,
  );
  return {
    /** Whether it is not yet known of some current revision. */
    isMissing: (): boolean => missing().length > 0,
    keep: db.transaction((all: readonly RevisionExpected[]): void => {
      for (const { revisionId, symptoms } of all) set.run(revisionId, EXPECTED_BY, JSON.stringify(symptoms));
    }).immediate,
  };
}

export function openExpectedReader(db: Database) {
  const of = db
    .prepare<[string, number], string>(
      'SELECT symptoms FROM expected_minutes WHERE revision_id = ? AND by = ?',
    )
    .pluck();
  const missing = db
    .prepare<[number], string>(
      `SELECT revision_id FROM tree_head WHERE NOT EXISTS (SELECT 1 FROM expected_minutes
         WHERE expected_minutes.revision_id = tree_head.revision_id AND by = ?) ORDER BY tree_id`,
    )
    .pluck();
  return {
    /** What is known of a revision; nothing where it has not been worked out. */
    of(revisionId: string): RevisionExpected['symptoms'] {
      const symptoms = of.get(revisionId, EXPECTED_BY);
      return symptoms === undefined ? {} : (JSON.parse(symptoms) as RevisionExpected['symptoms']);
    },
    /** The current revisions of which it is not known. */
    missing: (): readonly string[] => missing.all(EXPECTED_BY),
  };
}
