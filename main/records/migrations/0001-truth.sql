-- What the shop has recorded. Rows are added, never changed or taken away: the triggers below hold that.
-- Ids are UUIDv7, times are UTC in ISO 8601 with milliseconds, so that two shops' rows can be laid together.

CREATE TABLE tree_revision (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  tree_id TEXT NOT NULL CHECK (length(tree_id) BETWEEN 1 AND 80),
  bytes BLOB NOT NULL,
  checksum TEXT NOT NULL CHECK (length(checksum) = 64),
  source TEXT NOT NULL CHECK (source IN ('library', 'import', 'published')),
  note TEXT NOT NULL,
  added_at TEXT NOT NULL CHECK (length(added_at) = 24 AND added_at LIKE '%Z')
) STRICT;
CREATE INDEX tree_revision_by_tree ON tree_revision (tree_id, added_at, id);

CREATE TABLE picture (
  checksum TEXT PRIMARY KEY NOT NULL CHECK (length(checksum) = 64),
  media TEXT NOT NULL CHECK (media IN ('image/svg+xml', 'image/png', 'image/jpeg')),
  bytes BLOB NOT NULL
) STRICT;

CREATE TABLE revision_picture (
  revision_id TEXT NOT NULL REFERENCES tree_revision (id),
  file TEXT NOT NULL CHECK (length(file) BETWEEN 1 AND 120),
  picture_checksum TEXT NOT NULL REFERENCES picture (checksum),
  PRIMARY KEY (revision_id, file)
) STRICT, WITHOUT ROWID;

CREATE TABLE technician (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  added_at TEXT NOT NULL CHECK (length(added_at) = 24 AND added_at LIKE '%Z')
) STRICT, WITHOUT ROWID;

CREATE TABLE technician_retired (
  technician_id TEXT PRIMARY KEY NOT NULL REFERENCES technician (id),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z')
) STRICT, WITHOUT ROWID;

CREATE TABLE instrument (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  measures TEXT NOT NULL CHECK (length(measures) BETWEEN 1 AND 40),
  percent REAL NOT NULL CHECK (percent BETWEEN 0 AND 100),
  constant REAL NOT NULL CHECK (constant >= 0),
  added_at TEXT NOT NULL CHECK (length(added_at) = 24 AND added_at LIKE '%Z')
) STRICT, WITHOUT ROWID;

CREATE TABLE instrument_retired (
  instrument_id TEXT PRIMARY KEY NOT NULL REFERENCES instrument (id),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z')
) STRICT, WITHOUT ROWID;

CREATE TABLE setting (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  value TEXT NOT NULL CHECK (json_valid(value)),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z')
) STRICT, WITHOUT ROWID;
CREATE INDEX setting_by_name ON setting (name, at, id);

CREATE TABLE job (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  revision_id TEXT NOT NULL REFERENCES tree_revision (id),
  symptom TEXT NOT NULL CHECK (length(symptom) BETWEEN 1 AND 80),
  board TEXT NOT NULL CHECK (length(board) <= 40),
  serial TEXT NOT NULL CHECK (length(serial) BETWEEN 1 AND 60),
  reference TEXT NOT NULL CHECK (length(reference) <= 60),
  technician_id TEXT NOT NULL REFERENCES technician (id),
  opened_at TEXT NOT NULL CHECK (length(opened_at) = 24 AND opened_at LIKE '%Z'),
  invented INTEGER NOT NULL CHECK (invented IN (0, 1))
) STRICT, WITHOUT ROWID;
CREATE INDEX job_by_serial ON job (serial COLLATE NOCASE);

CREATE TABLE job_event (
  id TEXT NOT NULL UNIQUE CHECK (id GLOB '????????-????-7???-????-????????????'),
  job_id TEXT NOT NULL REFERENCES job (id),
  seq INTEGER NOT NULL CHECK (seq >= 0),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z'),
  technician_id TEXT NOT NULL REFERENCES technician (id),
  kind TEXT NOT NULL CHECK (kind IN ('answer', 'correct', 'settle', 'skip', 'turn-to', 'turn-back', 'change',
    'start-remedy', 'remedy-done', 'give-up-remedy', 'close', 'take-back')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  PRIMARY KEY (job_id, seq)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER tree_revision_stays BEFORE UPDATE ON tree_revision BEGIN SELECT RAISE(ABORT, 'truth: a tree revision is never changed'); END;
CREATE TRIGGER tree_revision_kept BEFORE DELETE ON tree_revision BEGIN SELECT RAISE(ABORT, 'truth: a tree revision is never deleted'); END;
CREATE TRIGGER picture_stays BEFORE UPDATE ON picture BEGIN SELECT RAISE(ABORT, 'truth: a picture is never changed'); END;
CREATE TRIGGER picture_kept BEFORE DELETE ON picture BEGIN SELECT RAISE(ABORT, 'truth: a picture is never deleted'); END;
CREATE TRIGGER revision_picture_stays BEFORE UPDATE ON revision_picture BEGIN SELECT RAISE(ABORT, 'truth: a revision''s picture is never changed'); END;
CREATE TRIGGER revision_picture_kept BEFORE DELETE ON revision_picture BEGIN SELECT RAISE(ABORT, 'truth: a revision''s picture is never deleted'); END;
CREATE TRIGGER technician_stays BEFORE UPDATE ON technician BEGIN SELECT RAISE(ABORT, 'truth: a technician is never changed'); END;
CREATE TRIGGER technician_kept BEFORE DELETE ON technician BEGIN SELECT RAISE(ABORT, 'truth: a technician is never deleted'); END;
CREATE TRIGGER technician_retired_stays BEFORE UPDATE ON technician_retired BEGIN SELECT RAISE(ABORT, 'truth: a retiring is never changed'); END;
CREATE TRIGGER technician_retired_kept BEFORE DELETE ON technician_retired BEGIN SELECT RAISE(ABORT, 'truth: a retiring is never deleted'); END;
CREATE TRIGGER instrument_stays BEFORE UPDATE ON instrument BEGIN SELECT RAISE(ABORT, 'truth: an instrument is never changed'); END;
CREATE TRIGGER instrument_kept BEFORE DELETE ON instrument BEGIN SELECT RAISE(ABORT, 'truth: an instrument is never deleted'); END;
CREATE TRIGGER instrument_retired_stays BEFORE UPDATE ON instrument_retired BEGIN SELECT RAISE(ABORT, 'truth: a retiring is never changed'); END;
CREATE TRIGGER instrument_retired_kept BEFORE DELETE ON instrument_retired BEGIN SELECT RAISE(ABORT, 'truth: a retiring is never deleted'); END;
CREATE TRIGGER setting_stays BEFORE UPDATE ON setting BEGIN SELECT RAISE(ABORT, 'truth: a setting is never changed'); END;
CREATE TRIGGER setting_kept BEFORE DELETE ON setting BEGIN SELECT RAISE(ABORT, 'truth: a setting is never deleted'); END;
CREATE TRIGGER job_stays BEFORE UPDATE ON job BEGIN SELECT RAISE(ABORT, 'truth: a job is never changed'); END;
CREATE TRIGGER job_kept BEFORE DELETE ON job BEGIN SELECT RAISE(ABORT, 'truth: a job is never deleted'); END;
CREATE TRIGGER job_event_stays BEFORE UPDATE ON job_event BEGIN SELECT RAISE(ABORT, 'truth: an event is never changed'); END;
CREATE TRIGGER job_event_kept BEFORE DELETE ON job_event BEGIN SELECT RAISE(ABORT, 'truth: an event is never deleted'); END;
