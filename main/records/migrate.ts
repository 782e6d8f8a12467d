import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { instant, type Clock } from './clock.ts';
import type { Database } from './database.ts';

/** One numbered step of the schema, plain SQL, forward only. */
export interface Migration {
  readonly number: number;
  readonly name: string;
  readonly sql: string;
  readonly checksum: string;
}

const FOLDER = new URL('./migrations/', import.meta.url);
const FILE_NAME = /^(\d{4})-([a-z0-9-]+)\.sql$/;

/** The migrations of a folder in order. Throws where a number is missing or used twice: that is a mistake in the program. */
export function readMigrations(folder: URL = FOLDER): readonly Migration[] {
  const path = fileURLToPath(folder);
  const migrations = readdirSync(path)
    .sort()
    .flatMap((file) => {
      const [, number, name] = FILE_NAME.exec(file) ?? [];
      if (number === undefined || name === undefined) return [];
      const sql = readFileSync(new URL(file, folder), 'utf8');
      return [
        { number: Number(number), name, sql, checksum: createHash('sha256').update(sql).digest('hex') },
      ];
    });
  const gap = migrations.findIndex(({ number }, index) => number !== index + 1);
  if (gap >= 0 || migrations.length === 0) throw new Error(`migration-missing: number ${gap + 1} in ${path}`);
  return migrations;
}

/** The number of the last migration that was made in this database; 0 in a new one. */
export function schemaNumber(db: Database): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/** Makes the migrations that are still to be made, each with its ledger row in one transaction. */
export function migrate(db: Database, migrations: readonly Migration[], clock: Clock): void {
  for (const migration of migrations) {
    if (migration.number > schemaNumber(db)) db.transaction(make).immediate(db, migration, clock);
  }
}

function make(db: Database, { number, name, sql, checksum }: Migration, clock: Clock): void {
  if (schemaNumber(db) >= number) return; // another process made it while this one waited for the lock
  db.exec(LEDGER);
  db.exec(sql);
  db.prepare('INSERT INTO migration (number, name, checksum, applied_at) VALUES (?, ?, ?, ?)').run(
    number,
    name,
    checksum,
    instant(clock()),
  );
  db.pragma(`user_version = ${String(number)}`);
}

const LEDGER = `
  CREATE TABLE IF NOT EXISTS migration (
    number INTEGER PRIMARY KEY NOT NULL,
    name TEXT NOT NULL,
    checksum TEXT NOT NULL,
    applied_at TEXT NOT NULL
  ) STRICT`;
