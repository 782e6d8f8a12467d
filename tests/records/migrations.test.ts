import Sqlite, { type Database } from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { migrate, readMigrations, schemaNumber } from '../../main/records/migrate.ts';

interface BeforeAndAfter {
  /** Puts rows into the schema as it was before the migration. */
  readonly before: (db: Database) => void;
  /** Says that they came through, and that what is new is there. */
  readonly after: (db: Database) => void;
}

const ID = (last: number) => `01900000-0000-7000-8000-00000000000${String(last)}`;
const AT = '2026-01-05T09:00:00.000Z';

const CASES: Readonly<Record<number, BeforeAndAfter>> = {
  1: {
    before: (db) => expect(tables(db)).toEqual([]),
    after: (db) => {
      db.prepare('INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)').run(ID(1), 'Ada', AT);
      expect(db.prepare('SELECT name FROM technician').pluck().all()).toEqual(['Ada']);
    },
  },
  2: {
    before: (db) => {
      db.prepare('INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)').run(ID(1), 'Ada', AT);
    },
    after: (db) => {
      expect(db.prepare('SELECT name FROM technician').pluck().all()).toEqual(['Ada']);
      expect(db.prepare('SELECT what, jobs FROM tally ORDER BY what').raw().all()).toEqual([
        ['closed', 0],
        ['invented', 0],
        ['open', 0],
      ]);
      db.prepare("INSERT INTO job_search (rowid, words) VALUES (7, '  kittiwake')").run();
      expect(db.prepare("SELECT rowid FROM job_search WHERE job_search MATCH 'wake'").pluck().all()).toEqual([
        7,
      ]);
    },
  },
  3: {
    before: (db) => {
      db.prepare('INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)').run(ID(1), 'Ada', AT);
      db.prepare("INSERT INTO tree_revision VALUES (?, 'small', x'7b7d', ?, 'library', 'As it came', ?)").run(
        ID(2),
        'a'.repeat(64),
        AT,
      );
    },
    after: (db) => {
      expect(db.prepare('SELECT id, note FROM tree_revision').raw().all()).toEqual([[ID(2), 'As it came']]);
      const draft = db.prepare('INSERT INTO draft VALUES (?, ?, ?, ?, ?, ?)');
      draft.run(ID(3), 'small', ID(2), null, ID(1), AT);
      expect(() => draft.run(ID(4), 'small', null, null, ID(1), AT)).toThrow('CHECK');
      const entry = db.prepare('INSERT INTO draft_entry VALUES (?, ?, ?, ?, ?, ?, ?)');
      entry.run(ID(5), ID(3), 0, AT, ID(1), 'undo', '{}');
      expect(() => entry.run(ID(6), ID(3), 0, AT, ID(1), 'undo', '{}')).toThrow('UNIQUE');
      expect(() => entry.run(ID(6), ID(3), 1, AT, ID(1), 'forget', '{}')).toThrow('CHECK');
      const ended = db.prepare('INSERT INTO draft_ended VALUES (?, ?, ?, ?, ?)');
      expect(() => ended.run(ID(3), 'published', null, ID(1), AT)).toThrow('CHECK');
      ended.run(ID(3), 'published', ID(2), ID(1), AT);
      db.prepare('INSERT INTO revision_author VALUES (?, ?)').run(ID(2), ID(1));
      expect(() => db.exec('DELETE FROM revision_author')).toThrow('never deleted');
    },
  },
  4: {
    before: (db) => {
      db.prepare('INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)').run(ID(1), 'Ada', AT);
      db.prepare("INSERT INTO tree_revision VALUES (?, 'small', x'7b7d', ?, 'library', 'As it came', ?)").run(
        ID(2),
        'a'.repeat(64),
        AT,
      );
      const job = db.prepare("INSERT INTO job VALUES (?, ?, 'dark', '', 'S-1', '', ?, ?, 0)");
      job.run(ID(3), ID(2), ID(1), AT);
      db.prepare("INSERT INTO job_event VALUES (?, ?, 0, ?, ?, 'start-remedy', '{}')").run(
        ID(4),
        ID(3),
        AT,
        ID(1),
      );
      db.prepare(
        "INSERT INTO job_status VALUES (7, ?, 'small', 'Small', 'Dark', ?, 1, 'declined', NULL, NULL)",
      ).run(ID(3), AT);
    },
    after: (db) => {
      expect(db.prepare('SELECT job_id, outcome FROM job_status').raw().all()).toEqual([[ID(3), 'declined']]);
      expect(db.prepare("SELECT id FROM job WHERE serial = 's-1' COLLATE NOCASE").pluck().get()).toBe(ID(3));
      // The closed job's fact is still to be made; where none was closed nothing is.
      expect(db.prepare('SELECT version, making, made_to FROM fact_state').raw().all()).toEqual([[0, 1, -1]]);
      expect(db.prepare('SELECT count(*) FROM fact_block').pluck().get()).toBe(0);
      const shown = db.prepare('INSERT INTO belief_shown VALUES (?, ?, ?)');
      db.pragma('foreign_keys = ON');
      expect(() => shown.run(ID(3), 1, '[]')).toThrow('FOREIGN KEY');
      shown.run(ID(3), 0, '[["panel",40]]');
      expect(() => db.exec('DELETE FROM belief_shown')).toThrow('never deleted');
      const name = db.prepare("INSERT INTO fact_name VALUES ('finding', ?, 'small', ?)");
      name.run(1, 'panel');
      expect(() => name.run(2, 'panel')).toThrow('UNIQUE');
      expect(() => name.run(65536, 'speaker')).toThrow('CHECK');
      const way = db.prepare("INSERT INTO way (tree_id, symptom, answers) VALUES ('small', 'dark', '[]')");
      way.run();
      expect(() => way.run()).toThrow('UNIQUE');
    },
  },
  5: {
    before: (db) => {
      db.prepare("INSERT INTO tree_revision VALUES (?, 'small', x'7b7d', ?, 'library', 'As it came', ?)").run(
        ID(2),
        'a'.repeat(64),
        AT,
      );
    },
    after: (db) => {
      expect(db.prepare('SELECT id FROM tree_revision').pluck().all()).toEqual([ID(2)]);
      const expected = db.prepare("INSERT INTO expected_minutes VALUES (?, 'dark', 1, ?, ?)");
      db.pragma('foreign_keys = ON');
      expect(() => expected.run(ID(3), 4, 16)).toThrow('FOREIGN KEY');
      expect(() => expected.run(ID(2), 4, null)).toThrow('CHECK');
      expected.run(ID(2), null, null);
      expect(() => expected.run(ID(2), 4, 16)).toThrow('UNIQUE');
    },
  },
  6: {
    before: (db) => {
      db.prepare('INSERT INTO technician (id, name, added_at) VALUES (?, ?, ?)').run(ID(1), 'Ada', AT);
      db.prepare("INSERT INTO tree_revision VALUES (?, 'small', x'7b7d', ?, 'library', 'As it came', ?)").run(
        ID(2),
        'a'.repeat(64),
        AT,
      );
      db.prepare("INSERT INTO job VALUES (?, ?, 'dark', '', 'S-1', '', ?, ?, 0)").run(
        ID(3),
        ID(2),
        ID(1),
        AT,
      );
      db.prepare(
        "INSERT INTO job_status VALUES (7, ?, 'small', 'Small', 'Dark', ?, 1, 'declined', NULL, NULL)",
      ).run(ID(3), AT);
      db.exec("INSERT INTO fact_name VALUES ('finding', 1, 'small', 'panel')");
      db.exec("INSERT INTO way (tree_id, symptom, answers) VALUES ('small', 'dark', '[]')");
      db.exec("INSERT INTO fact_block VALUES (0, 3, 1, x'00')");
      db.exec('UPDATE fact_state SET version = 3, making = 1, made_to = NULL');
    },
    after: (db) => {
      expect(db.prepare('SELECT job_id FROM job_status').pluck().all()).toEqual([ID(3)]);
      // The facts of before lack a column: none is left, and all are to be made anew.
      expect(db.prepare('SELECT version, making, made_to FROM fact_state').raw().all()).toEqual([[3, 2, -1]]);
      for (const table of ['fact_block', 'fact_name', 'way'])
        expect(db.prepare(`SELECT count(*) FROM ${table}`).pluck().get()).toBe(0);
    },
  },
};

describe('migrations', () => {
  const migrations = readMigrations();

  it('are each tested before and after', () => {
    expect(Object.keys(CASES).map(Number)).toEqual(migrations.map(({ number }) => number));
  });

  it.each(migrations)('number $number, $name, keeps what was there and brings what is new', ({ number }) => {
    const db = new Sqlite(':memory:');
    migrate(db, migrations.slice(0, number - 1), () => 0);
    CASES[number]?.before(db);
    migrate(db, migrations.slice(0, number), () => 0);
    expect(schemaNumber(db)).toBe(number);
    CASES[number]?.after(db);
  });

  it('leave no fact to be made where no job was closed before there were any', () => {
    const db = new Sqlite(':memory:');
    migrate(db, migrations, () => 0);
    expect(db.prepare('SELECT made_to FROM fact_state').pluck().all()).toEqual([null]);
  });

  it('are written down in the ledger, each with its checksum and time', () => {
    const db = new Sqlite(':memory:');
    migrate(db, migrations, () => Date.parse(AT));
    expect(db.prepare('SELECT number, name, checksum, applied_at FROM migration').raw().all()).toEqual(
      migrations.map(({ number, name, checksum }) => [number, name, checksum, AT]),
    );
  });

  it('are made once only', () => {
    const db = new Sqlite(':memory:');
    migrate(db, migrations, () => 0);
    migrate(db, migrations, () => 0);
    expect(db.prepare('SELECT count(*) FROM migration').pluck().get()).toBe(migrations.length);
  });

  it('leave neither change nor ledger row where one fails half way', () => {
    const db = new Sqlite(':memory:');
    const sql = 'CREATE TABLE half (a INTEGER) STRICT; CREATE TABLE half (a INTEGER) STRICT;';
    const broken = { number: migrations.length + 1, name: 'broken', checksum: '', sql };
    migrate(db, migrations, () => 0);
    expect(() => migrate(db, [...migrations, broken], () => 0)).toThrow(/half already exists/);
    expect(schemaNumber(db)).toBe(migrations.length);
    expect(tables(db)).not.toContain('half');
    expect(db.prepare('SELECT count(*) FROM migration').pluck().get()).toBe(migrations.length);
  });

  it('make every table of our own strict', () => {
    const db = new Sqlite(':memory:');
    migrate(db, migrations, () => 0);
    const loose = db.prepare(
      "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0",
    );
    expect(loose.pluck().all()).toEqual(['sqlite_schema']);
  });
});

function tables(db: Database): unknown[] {
  return db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
}
