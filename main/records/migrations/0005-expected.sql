-- What a revision's author expects of each symptom's path, worked out once for each revision: {symptom: {toFinding, toProof} | null},
-- in minutes. `by` is the number of the arithmetic that it was worked out by; what another one gave is worked out anew.
CREATE TABLE expected_minutes (
  revision_id TEXT PRIMARY KEY NOT NULL REFERENCES tree_revision (id),
  by INTEGER NOT NULL,
  symptoms TEXT NOT NULL CHECK (json_valid(symptoms))
) STRICT, WITHOUT ROWID;
