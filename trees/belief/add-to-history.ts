import { own } from '../document/index.ts';
import type { Contribution } from './contribution.ts';
import type { History } from './history.ts';

type Counts = Record<string, number>;

interface Tally {
  readonly findings: Record<string, Counts>;
  readonly results: Record<string, Record<string, Counts>>;
  readonly remedies: Record<string, { tried: number; mended: number }>;
}

/**
 * History with one job's contribution added (`sign` 1) or taken out again (-1). Counts of zero are left out, so that
 * adding and taking out gives back the very same history. Taking out what is not there is a bug and throws.
 */
export function addToHistory(history: History, contribution: Contribution, sign: 1 | -1): History {
  const tally = copyOf(history);
  add(tally, contribution, sign);
  return tally;
}

/** The history that a set of closed jobs makes, in any order. */
export function historyOf(contributions: Iterable<Contribution>): History {
  const tally: Tally = { findings: {}, results: {}, remedies: {} };
  for (const contribution of contributions) add(tally, contribution, 1);
  return tally;
}

function add(tally: Tally, { confirmed, results, remedies }: Contribution, sign: 1 | -1): void {
  if (confirmed !== null) {
    const { symptom, finding } = confirmed;
    count(tally.findings, symptom, finding, sign);
    for (const { test, result } of results) {
      const byFinding = within(tally.results, test);
      count(byFinding, finding, result, sign);
      if (Object.keys(byFinding).length === 0) delete tally.results[test];
    }
  }
  for (const { finding, mended } of remedies) {
    const had = own(tally.remedies, finding);
    const tried = counted((had?.tried ?? 0) + sign);
    const now = { tried, mended: counted((had?.mended ?? 0) + (mended ? sign : 0)) };
    if (tried === 0) delete tally.remedies[finding];
    else tally.remedies[finding] = now;
  }
}

function count(counts: Record<string, Counts>, outer: string, inner: string, sign: 1 | -1): void {
  const entry = within(counts, outer);
  const now = counted((own(entry, inner) ?? 0) + sign);
  if (now === 0) delete entry[inner];
  else entry[inner] = now;
  if (Object.keys(entry).length === 0) delete counts[outer];
}

function within<V>(record: Record<string, Record<string, V>>, key: string): Record<string, V> {
  const had = own(record, key);
  if (had !== undefined) return had;
  const made: Record<string, V> = {};
  record[key] = made;
  return made;
}

function counted(value: number): number {
  if (value < 0) throw new Error('history-below-zero: a job was taken out of a history that it is not in');
  return value;
}

function copyOf(history: History): Tally {
  const copy = (counts: Readonly<Record<string, Readonly<Counts>>>): Record<string, Counts> =>
    mapped(counts, (inner) => ({ ...inner }));
  return {
    findings: copy(history.findings),
    results: mapped(history.results, copy),
    remedies: mapped(history.remedies, (entry) => ({ ...entry })),
  };
}

function mapped<V, W>(record: Readonly<Record<string, V>>, change: (value: V) => W): Record<string, W> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}
