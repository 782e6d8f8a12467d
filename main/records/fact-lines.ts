import { factAt, unpackColumns, type JobFact } from '../../trees/review/index.ts';
import type { Database } from './database.ts';
import { NO_NAMES, openNameReader } from './fact-names.ts';

/** Every fact as a line of text, by its job's id and not its place: places only order, and may change where jobs are made anew. */
export function openFactLines(db: Database): () => Iterable<string> {
  const reader = openNameReader(db);
  const blocks = db.prepare<[], { readonly rows: number; readonly columns: Buffer }>(
    'SELECT rows, columns FROM fact_block ORDER BY day',
  );
  const jobAt = db.prepare<[number], string>('SELECT job_id FROM job_status WHERE place = ?').pluck();
  return function* () {
    const names = reader.names(NO_NAMES);
    const ways = reader.ways([undefined]);
    for (const { rows, columns } of blocks.all()) {
      const block = unpackColumns(rows, columns);
      const lines = Array.from({ length: rows }, (_, row) => lineOf(factAt(block, row, names, ways)));
      yield* lines.sort();
    }
  };

  function lineOf({ place, ...fact }: JobFact): string {
    return JSON.stringify([jobAt.get(place) ?? null, fact]);
  }
}
