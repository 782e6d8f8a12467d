import type { Database } from 'better-sqlite3';
import type { Clock } from './clock.ts';
import type { Ids } from './ids.ts';

export type { Database } from 'better-sqlite3';

/** What every module of the records works with. */
export interface Room {
  readonly db: Database;
  readonly ids: Ids;
  readonly clock: Clock;
}
