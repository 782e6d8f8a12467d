import { holm, stratifiedTest, type TwoByTwo } from '../statistics/index.ts';
import type { AgainstAll } from './figures.ts';

/** What differs has, corrected for all that are compared, less than this chance of being nothing. */
export const SIGNIFICANT = 0.05;

/** Things that are each held against all others, where alike: what they are, and a table for each kind of what is alike. */
export interface Compared<Thing> {
  readonly thing: Thing;
  /** First row: the thing's own. First column: what is counted. */
  readonly tables: readonly TwoByTwo[];
}

/**
 * Each thing with how its count stands to all, by the test of like held against like and Holm's correction. What has no other
 * to be held against, or could not come out otherwise, differs by nothing and is not among those corrected for.
 */
export function againstAll<Thing>(compared: readonly Compared<Thing>[]): readonly (Thing & AgainstAll)[] {
  const tested = compared.map(({ thing, tables }) => ({ thing, ...stratifiedTest(tables) }));
  const open = tested.filter(({ variance }) => variance > 0);
  const corrected = holm(open.map(({ chance }) => chance));
  const after = new Map(open.map(({ thing }, place) => [thing, corrected[place] ?? 1]));
  return tested.map(({ thing, expected, chance }) => {
    const one = after.get(thing) ?? 1;
    return { ...thing, expected, chance, corrected: one, differs: one < SIGNIFICANT };
  });
}
