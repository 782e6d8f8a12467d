-- Drafts of trees, kept as jobs are: where each began, and the entries that were made since. Who published a revision.
-- All of it is truth: rows are added, never changed or taken away.

-- A draft begins as a revision's text, or as a text of its own; with both, as that text, to stand on the revision.
CREATE TABLE draft (
  id TEXT PRIMARY KEY NOT NULL CHECK (id GLOB '????????-????-7???-????-????????????'),
  tree_id TEXT NOT NULL CHECK (length(tree_id) BETWEEN 1 AND 80),
  base_revision TEXT REFERENCES tree_revision (id),
  base_bytes BLOB,
  technician_id TEXT NOT NULL REFERENCES technician (id),
  started_at TEXT NOT NULL CHECK (length(started_at) = 24 AND started_at LIKE '%Z'),
  CHECK (base_revision IS NOT NULL OR base_bytes IS NOT NULL)
) STRICT;

CREATE TABLE draft_entry (
  id TEXT NOT NULL UNIQUE CHECK (id GLOB '????????-????-7???-????-????????????'),
  draft_id TEXT NOT NULL REFERENCES draft (id),
  seq INTEGER NOT NULL CHECK (seq >= 0),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z'),
  technician_id TEXT NOT NULL REFERENCES technician (id),
  kind TEXT NOT NULL CHECK (kind IN ('edit', 'undo', 'redo', 'rebase')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  PRIMARY KEY (draft_id, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX draft_entry_rebase ON draft_entry (draft_id, seq) WHERE kind = 'rebase';

CREATE TABLE draft_ended (
  draft_id TEXT PRIMARY KEY NOT NULL REFERENCES draft (id),
  how TEXT NOT NULL CHECK (how IN ('discarded', 'published')),
  revision_id TEXT REFERENCES tree_revision (id),
  technician_id TEXT NOT NULL REFERENCES technician (id),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z'),
  CHECK ((how = 'published') = (revision_id IS NOT NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE draft_picture (
  draft_id TEXT NOT NULL REFERENCES draft (id),
  file TEXT NOT NULL CHECK (length(file) BETWEEN 1 AND 120),
  picture_checksum TEXT NOT NULL REFERENCES picture (checksum),
  at TEXT NOT NULL CHECK (length(at) = 24 AND at LIKE '%Z'),
  PRIMARY KEY (draft_id, file)
) STRICT, WITHOUT ROWID;

-- Revisions that a technician published; those of the library have none.
CREATE TABLE revision_author (
  revision_id TEXT PRIMARY KEY NOT NULL REFERENCES tree_revision (id),
  technician_id TEXT NOT NULL REFERENCES technician (id)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER draft_stays BEFORE UPDATE ON draft BEGIN SELECT RAISE(ABORT, 'truth: a draft''s beginning is never changed'); END;
CREATE TRIGGER draft_kept BEFORE DELETE ON draft BEGIN SELECT RAISE(ABORT, 'truth: a draft is never deleted'); END;
CREATE TRIGGER draft_entry_stays BEFORE UPDATE ON draft_entry BEGIN SELECT RAISE(ABORT, 'truth: a draft''s entry is never changed'); END;
CREATE TRIGGER draft_entry_kept BEFORE DELETE ON draft_entry BEGIN SELECT RAISE(ABORT, 'truth: a draft''s entry is never deleted'); END;
CREATE TRIGGER draft_ended_stays BEFORE UPDATE ON draft_ended BEGIN SELECT RAISE(ABORT, 'truth: a draft''s end is never changed'); END;
CREATE TRIGGER draft_ended_kept BEFORE DELETE ON draft_ended BEGIN SELECT RAISE(ABORT, 'truth: a draft''s end is never deleted'); END;
CREATE TRIGGER draft_picture_stays BEFORE UPDATE ON draft_picture BEGIN SELECT RAISE(ABORT, 'truth: a draft''s picture is never changed'); END;
CREATE TRIGGER draft_picture_kept BEFORE DELETE ON draft_picture BEGIN SELECT RAISE(ABORT, 'truth: a draft''s picture is never deleted'); END;
CREATE TRIGGER revision_author_stays BEFORE UPDATE ON revision_author BEGIN SELECT RAISE(ABORT, 'truth: a revision''s author is never changed'); END;
CREATE TRIGGER revision_author_kept BEFORE DELETE ON revision_author BEGIN SELECT RAISE(ABORT, 'truth: a revision''s author is never deleted'); END;

-- The closed jobs of a tree, newest first, however many other trees' jobs stand between them.
CREATE INDEX job_status_by_tree ON job_status (tree_id, place);
