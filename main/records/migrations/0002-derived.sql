-- What can be made again from the truth at any time; kept in step with it in the same transaction.

-- The current revision of each tree, and what a list of trees shows of it.
CREATE TABLE tree_head (
  tree_id TEXT PRIMARY KEY NOT NULL,
  revision_id TEXT NOT NULL REFERENCES tree_revision (id),
  summary TEXT NOT NULL CHECK (json_valid(summary))
) STRICT, WITHOUT ROWID;

-- Where each job stands. `place` sorts jobs by when they were opened; it is this file's own and never leaves it.
CREATE TABLE job_status (
  place INTEGER PRIMARY KEY NOT NULL,
  job_id TEXT NOT NULL UNIQUE REFERENCES job (id),
  tree_id TEXT NOT NULL,
  family TEXT NOT NULL,
  symptom_title TEXT NOT NULL,
  last_at TEXT NOT NULL,
  events INTEGER NOT NULL CHECK (events >= 0),
  outcome TEXT CHECK (outcome IN ('fixed', 'no-fault-found', 'beyond-economic-repair', 'declined', 'passed-on')),
  finding TEXT,
  finding_title TEXT,
  CHECK ((finding IS NULL) = (finding_title IS NULL)),
  CHECK (outcome IS NOT NULL OR finding IS NULL)
) STRICT;
CREATE INDEX job_status_open ON job_status (place) WHERE outcome IS NULL;

-- What a closed job knew: the chart's context as JSON, so that counts can be sorted again without a replay.
CREATE TABLE closed_state (
  place INTEGER PRIMARY KEY NOT NULL REFERENCES job_status (place),
  tree_id TEXT NOT NULL,
  state TEXT NOT NULL CHECK (json_valid(state))
) STRICT;
CREATE INDEX closed_state_by_tree ON closed_state (tree_id, place);

CREATE TABLE finding_count (
  tree_id TEXT NOT NULL, symptom TEXT NOT NULL, finding TEXT NOT NULL,
  jobs INTEGER NOT NULL CHECK (jobs >= 0),
  PRIMARY KEY (tree_id, symptom, finding)
) STRICT, WITHOUT ROWID;

CREATE TABLE result_count (
  tree_id TEXT NOT NULL, test TEXT NOT NULL, finding TEXT NOT NULL, result TEXT NOT NULL,
  jobs INTEGER NOT NULL CHECK (jobs >= 0),
  PRIMARY KEY (tree_id, test, finding, result)
) STRICT, WITHOUT ROWID;

CREATE TABLE remedy_count (
  tree_id TEXT NOT NULL, finding TEXT NOT NULL,
  tried INTEGER NOT NULL CHECK (tried >= 0), mended INTEGER NOT NULL CHECK (mended BETWEEN 0 AND tried),
  PRIMARY KEY (tree_id, finding)
) STRICT, WITHOUT ROWID;

-- How many jobs there are, so that opening the app counts nothing.
CREATE TABLE tally (
  what TEXT PRIMARY KEY NOT NULL CHECK (what IN ('open', 'closed', 'invented')),
  jobs INTEGER NOT NULL CHECK (jobs >= 0)
) STRICT, WITHOUT ROWID;
INSERT INTO tally (what, jobs) VALUES ('open', 0), ('closed', 0), ('invented', 0);

-- Words of closed jobs by three letters at a time; the rowid is the job's place.
CREATE VIRTUAL TABLE job_search USING fts5 (words, content = '', contentless_delete = 1, tokenize = 'trigram');
