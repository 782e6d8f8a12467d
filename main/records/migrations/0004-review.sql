-- What the review is made of: a fact for each closed job, kept in step with its events, and, as truth, what the bench showed.

-- The percentages beside the likely findings when a job's first remedy was taken in hand (`seq` is that event's):
-- [[finding, whole percent], …], likeliest first.
CREATE TABLE belief_shown (
  job_id TEXT PRIMARY KEY NOT NULL REFERENCES job (id),
  seq INTEGER NOT NULL CHECK (seq >= 0),
  findings TEXT NOT NULL CHECK (json_valid(findings)),
  FOREIGN KEY (job_id, seq) REFERENCES job_event (job_id, seq)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER belief_shown_stays BEFORE UPDATE ON belief_shown BEGIN SELECT RAISE(ABORT, 'truth: what was shown is never changed'); END;
CREATE TRIGGER belief_shown_kept BEFORE DELETE ON belief_shown BEGIN SELECT RAISE(ABORT, 'truth: what was shown is never deleted'); END;

-- The jobs of one unit by when they were opened: a comeback is the next one.
CREATE INDEX job_by_unit ON job (serial COLLATE NOCASE, opened_at);
DROP INDEX job_by_serial;

-- The facts of the jobs that were opened on one day (UTC, days since 1970), packed column by column.
CREATE TABLE fact_block (
  day INTEGER PRIMARY KEY NOT NULL,
  version INTEGER NOT NULL,
  rows INTEGER NOT NULL CHECK (rows >= 0),
  columns BLOB NOT NULL
) STRICT;
CREATE INDEX fact_block_by_version ON fact_block (version);

-- What the codes in the columns stand for. A technician belongs to no tree.
CREATE TABLE fact_name (
  kind TEXT NOT NULL CHECK (kind IN ('symptom', 'finding', 'board', 'technician')),
  code INTEGER NOT NULL CHECK (code BETWEEN 1 AND 65535),
  tree_id TEXT NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (kind, code),
  UNIQUE (kind, tree_id, name)
) STRICT, WITHOUT ROWID;

-- The results that led to a finding, as [[test, result], …] in the order of the tests' ids; many jobs have the same.
CREATE TABLE way (
  id INTEGER PRIMARY KEY NOT NULL,
  tree_id TEXT NOT NULL,
  symptom TEXT NOT NULL,
  answers TEXT NOT NULL CHECK (json_valid(answers)),
  UNIQUE (tree_id, symptom, answers)
) STRICT;

-- `version` is that of the last block written. `making` is raised when all is made anew: codes and blocks of before mean
-- nothing then. Closed jobs after the place `made_to` may have no fact yet; null once all have one.
CREATE TABLE fact_state (
  only INTEGER PRIMARY KEY NOT NULL CHECK (only = 1),
  version INTEGER NOT NULL,
  making INTEGER NOT NULL,
  made_to INTEGER
) STRICT;
INSERT INTO fact_state (only, version, making, made_to)
  SELECT 1, 0, 1, CASE WHEN EXISTS (SELECT 1 FROM job_status WHERE outcome IS NOT NULL) THEN -1 END;
