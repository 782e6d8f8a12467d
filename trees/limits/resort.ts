import { own, type Test, type Tree } from '../document/index.ts';
import { rateOf, type Rate } from '../statistics/index.ts';
import { expectedOf, likeliest, type Expected } from './expected.ts';
import type { Results } from './layout.ts';
import { resultNow, type RecordedReading } from './recorded-reading.ts';

/** n(t,f,r) of one test: by finding, then result; zeros are left out, as in the shop's history. */
export type ResultCounts = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** Readings of one finding that would sort otherwise. */
export interface Resorted {
  readonly finding: string;
  readonly from: string;
  readonly to: string;
  readonly readings: number;
}

/** What other bands would have made of the readings of closed jobs. */
export interface Resorting {
  /** Readings looked at: those of the tree's findings. `unlisted` and findings that the tree has not do not count. */
  readonly readings: number;
  /** Most readings first. */
  readonly moved: readonly Resorted[];
  /** Readings in the band that their finding makes likeliest, of those whose finding says; before and after. */
  readonly fitting: { readonly before: Rate; readonly after: Rate };
  /** The fault model's counts of the test: as they are, and as publishing the other bands would make them. */
  readonly counts: { readonly before: ResultCounts; readonly after: ResultCounts };
}

/**
 * What other results and bands of a test would have changed, against those it has or those given as `former`. The counts are
 * those that publishing a revision with them makes of the same readings.
 */
export function resorting(
  tree: Tree,
  testId: string,
  results: Results,
  readings: readonly RecordedReading[],
  former?: Results,
): Resorting {
  const test = own(tree.tests, testId);
  const was = former ?? test?.results ?? {};
  const counted = readings.filter(({ finding }) => Object.hasOwn(tree.findings, finding));
  const expected = expectedOf(tree, testId);
  const [present, other] = [test && { ...test, results: was }, test && { ...test, results }];
  const sorted = counted.map((reading) => ({
    finding: reading.finding,
    before: present ? resultNow(present, reading) : reading.result,
    after: other ? resultNow(other, reading) : reading.result,
  }));
  const before = sorted.map(({ finding, before: result }) => ({ finding, result }));
  const after = sorted.map(({ finding, after: result }) => ({ finding, result }));
  return {
    readings: counted.length,
    moved: movedOf(sorted),
    fitting: { before: fittingOf(expected, before), after: fittingOf(expected, after) },
    counts: { before: countsOf(was, before), after: countsOf(results, after) },
  };
}

interface Sorted {
  readonly finding: string;
  readonly result: string;
}

function movedOf(
  sorted: readonly { readonly finding: string; readonly before: string; readonly after: string }[],
): readonly Resorted[] {
  const moved = new Map<string, Resorted>();
  for (const { finding, before: from, after: to } of sorted) {
    if (from === to) continue;
    const key = `${finding} ${from} ${to}`;
    moved.set(key, { finding, from, to, readings: (moved.get(key)?.readings ?? 0) + 1 });
  }
  return [...moved.values()].toSorted((a, b) => b.readings - a.readings);
}

function fittingOf(expected: Expected, sorted: readonly Sorted[]): Rate {
  const wanted = new Map([...expected.keys()].map((finding) => [finding, likeliest(expected, finding)]));
  const said = sorted.filter(({ finding }) => (wanted.get(finding) ?? []).length > 0);
  const fit = said.filter(({ finding, result }) => wanted.get(finding)?.includes(result) === true);
  return rateOf(fit.length, said.length);
}

function countsOf(results: Test['results'], sorted: readonly Sorted[]): ResultCounts {
  const counts: Record<string, Record<string, number>> = byId();
  for (const { finding, result } of sorted) {
    if (!Object.hasOwn(results, result)) continue;
    const row = (counts[finding] ??= byId());
    row[result] = (row[result] ?? 0) + 1;
  }
  return counts;
}

/** A record that has nothing but what is put into it: `constructor` is a legal id. */
function byId<V>(): Record<string, V> {
  return Object.create(null) as Record<string, V>;
}
