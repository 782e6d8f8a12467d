-- What a revision's author expects of a symptom's path, in minutes, worked out once; null where there is no path, or too much of it.
-- `by` is the number of the arithmetic that it was worked out by; what another one gave is worked out anew.
CREATE TABLE expected_minutes (
  revision_id TEXT NOT NULL REFERENCES tree_revision (id),
  symptom TEXT NOT NULL,
  by INTEGER NOT NULL,
  to_finding REAL,
  to_proof REAL,
  PRIMARY KEY (revision_id, symptom),
  CHECK ((to_finding IS NULL) = (to_proof IS NULL))
) STRICT, WITHOUT ROWID;
