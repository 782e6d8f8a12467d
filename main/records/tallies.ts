import type { Database } from './database.ts';

/** How many jobs the shop has: open, closed, and made by the demo. */
export interface Tallies {
  readonly open: number;
  readonly closed: number;
  readonly invented: number;
}

export function openTallies(db: Database): () => Tallies {
  const all = db.prepare<[], { readonly what: keyof Tallies; readonly jobs: number }>(
    'SELECT what, jobs FROM tally',
  );
  return () => {
    const counted = { open: 0, closed: 0, invented: 0 };
    for (const { what, jobs } of all.all()) counted[what] = jobs;
    return counted;
  };
}
