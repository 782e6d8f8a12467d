import type { Database } from './database.ts';

/** The words by which a job is found: each on its own, as they stand on the job's ticket and in its tree. */
export type JobWords = readonly string[];

export type Search = ReturnType<typeof openSearch>;

/**
 * Finds closed jobs by their words. A term of three letters or more is found anywhere in a word, a shorter one where a
 * word begins; every term must be found. Upper case, lower case and accents make no difference.
 */
export function openSearch(db: Database) {
  const insert = db.prepare<[number, string]>('INSERT INTO job_search (rowid, words) VALUES (?, ?)');
  const remove = db.prepare<[number]>('DELETE FROM job_search WHERE rowid = ?');
  const placesBefore = db
    .prepare<[string, number, number], number>(
      'SELECT rowid FROM job_search WHERE job_search MATCH ? AND rowid < ? ORDER BY rowid DESC LIMIT ?',
    )
    .pluck();
  return {
    add: (place: number, words: JobWords): void => void insert.run(place, lined(words)),
    remove: (place: number): void => void remove.run(place),
    /** Places of the jobs found, newest first, from before a place. */
    places: (terms: string, before: number, limit: number): readonly number[] =>
      placesBefore.all(needles(terms).map(quoted).join(' AND '), before, limit),
  };
}

/** Whether nothing is asked for. */
export function isBlank(terms: string): boolean {
  return needles(terms).length === 0;
}

/** The same rule for a job that is not in the index: whether all terms are found in its words. */
export function matches(terms: string, words: JobWords): boolean {
  const line = lined(words);
  return needles(terms).every((needle) => line.includes(needle));
}

// Two blanks stand before each word, so that a term of one or two letters, blanks before it, is three letters to look for.
function lined(words: JobWords): string {
  return folded(words.join(' '))
    .split(' ')
    .map((word) => `  ${word}`)
    .join('');
}

function needles(terms: string): readonly string[] {
  return folded(terms)
    .split(' ')
    .filter((term) => term !== '')
    .map((term) => ([...term].length < 3 ? term.padStart(term.length + 3 - [...term].length) : term));
}

function folded(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/\p{Mark}/gu, '')
    .toLowerCase()
    .replaceAll(/[\s\p{Control}]+/gu, ' ')
    .trim();
}

function quoted(needle: string): string {
  return `"${needle.replaceAll('"', '""')}"`;
}
