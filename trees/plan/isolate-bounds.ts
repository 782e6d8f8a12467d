import { entropyBits } from './information-gain.ts';
import { huffmanLength } from './huffman.ts';
import { moves } from './isolate-end.ts';
import { resultAt } from './marks.ts';
import { startPosition, type Position } from './position.ts';
import type { PlanTest, Problem } from './problem.ts';

/** Least and most expected minutes that isolating can still take, and a guess between the two. */
export interface Bounds {
  readonly lower: number;
  readonly upper: number;
  readonly guess: number;
}

/** What bounds on isolating need of a problem, worked out once. */
export interface IsolateBounds {
  readonly boundsAt: (position: Position) => Bounds;
}

/**
 * Bounds for the goal *isolate*.
 *
 * Lower, where every result is certain: the leaves of any policy are, for each group of findings that tests never told
 * apart, no heavier than the group or than its heaviest finding over `settled`. The heaviest shares that this allows make the
 * least Huffman code (its length is Schur-concave), so no policy makes fewer tests on average; and since a policy makes
 * each test once, the minutes are at least those of the cheapest tests (convex in their number, Jensen). Huffman 1952;
 * Pattipati & Alexandridis 1990, IEEE Trans. SMC 20:872-887.
 *
 * Lower, in general: of the probability, a share a ends with every telling test made, and the rest settled, whose
 * entropy is at most h = H(settled) + (1 - settled) log2(n - 1). A test gains at most its capacity, log2 k less the least
 * entropy of its results under any finding. So the minutes are at least a times those of all tests, and at least
 * (H - a log2 n - (1 - a) h) over the best capacity for a minute; the least of the larger over all a is a bound.
 *
 * Upper: every test that is left, one after another, each with the longest changeovers there are.
 */
export function isolateBounds(problem: Problem): IsolateBounds {
  const can = startPosition(problem).belief.map((share) => Number(share > 0));
  const rows = [...can.keys()].filter((row) => can[row] === 1);
  const isUseful = problem.tests.map((test) => test.available && moves(test, can));
  const useful = problem.tests.filter((_, at) => isUseful[at]);
  const certain = useful.every((test) => eachValue(test, rows, (value) => value === 0 || value === 1));
  const keepsAll = useful.every((test) => eachValue(test, rows, (value) => value > 0));
  const groups = groupsOf(
    can.length,
    useful.filter(({ safe }) => safe),
  );
  const cheapest = problem.tests
    .map(({ minutes }, at) => ({ at, minutes }))
    .filter(({ at }) => isUseful[at])
    .sort((a, b) => a.minutes - b.minutes);
  const arity = Math.max(2, ...useful.map(({ results }) => results));
  const rates = useful.map((test) => capacity(test, rows, can.length) / test.minutes);
  const rate = rates.some((one) => Number.isNaN(one)) ? Infinity : Math.max(0, ...rates);
  const settled = settledEntropy(problem, rows.length);
  const slowest = slowestMinutes(problem);
  return {
    boundsAt({ marks, belief }) {
      const left = cheapest.filter(({ at }) => resultAt(marks[at] ?? 0) < 0);
      let upper = 0;
      problem.tests.forEach(({ opens, available }, at) => {
        if (opens || (available && resultAt(marks[at] ?? 0) < 0)) upper += slowest[at] ?? 0;
      });
      const all = keepsAll ? safeMinutes(problem, left) : 0;
      const lower = certain
        ? minutesOf(left, huffmanLength(leafShares(problem, groups, belief), arity))
        : entropyBound(belief, Math.log2(rows.length), settled, rate, all);
      const guess = certain ? lower * CERTAIN_GUESS : guessed(belief, settled, left, rate);
      return { lower, upper, guess: Math.min(upper, Math.max(lower, guess)) };
    },
  };
}

/** Minutes of each test with the longest changeovers there are before it, and after one that may shut an interlock. */
function slowestMinutes({ tests, bench }: Problem): readonly number[] {
  const leaving = bench.locks.length === 0 ? 0 : bench.longest.reduce((sum, one) => sum + one, 0);
  return tests.map(({ minutes, needs, opens }) => {
    const changeovers = needs.reduce(
      (sum, state, axis) => sum + (state < 0 ? 0 : (bench.longest[axis] ?? 0)),
      0,
    );
    return minutes + changeovers + (opens ? leaving : 0);
  });
}

function eachValue(
  { table, results }: PlanTest,
  rows: readonly number[],
  holds: (value: number) => boolean,
): boolean {
  const findings = table.length / results;
  return rows.every((row) => {
    for (let result = 0; result < results; result += 1)
      if (!holds(table[result * findings + row] ?? 0)) return false;
    return true;
  });
}

type Left = readonly { readonly at: number; readonly minutes: number }[];

/** Minutes of the first so many of the cheapest tests, the last of them in part. */
function minutesOf(left: Left, count: number): number {
  let minutes = 0;
  let rest = count;
  for (const one of left) {
    if (rest <= 0) break;
    minutes += one.minutes * Math.min(1, rest);
    rest -= 1;
  }
  return minutes;
}

/** Findings that none of the tests ever tells apart, by the number of their group. */
function groupsOf(findings: number, tests: readonly PlanTest[]): readonly number[] {
  const keys = new Map<string, number>();
  return Array.from({ length: findings }, (_, row) => {
    const key = tests
      .map(({ table, results }) =>
        Array.from({ length: results }, (__, result) => table[result * findings + row]).join(),
      )
      .join(';');
    const group = keys.get(key) ?? keys.size;
    keys.set(key, group);
    return group;
  });
}

/** The heaviest leaves that a policy can have: each group's share or its heaviest finding's over `settled`, heaviest first, to a sum of one. */
function leafShares(
  { settled }: Problem,
  groups: readonly number[],
  belief: Float64Array,
): readonly number[] {
  const sums: number[] = [];
  const heaviest: number[] = [];
  belief.forEach((share, row) => {
    const group = groups[row] ?? 0;
    sums[group] = (sums[group] ?? 0) + share;
    heaviest[group] = Math.max(heaviest[group] ?? 0, share);
  });
  const caps = sums.map((sum, group) => Math.min(1, Math.max(sum, (heaviest[group] ?? 0) / settled)));
  const shares: number[] = [];
  let rest = 1;
  for (const cap of caps.sort((a, b) => b - a)) {
    if (rest <= ROUNDING) break;
    shares.push(Math.min(cap, rest));
    rest -= cap;
  }
  return shares;
}

/** What is left of one after taking off shares that sum to it. */
const ROUNDING = 1e-12;

/** The most that a test can tell, in bits, whatever the belief. */
function capacity({ table, results }: PlanTest, rows: readonly number[], findings: number): number {
  let least = Infinity;
  for (const row of rows) {
    const shares = Array.from({ length: results }, (_, result) => table[result * findings + row] ?? 0);
    least = Math.min(least, entropyBits(shares));
  }
  return Math.log2(results) - least;
}

function safeMinutes({ tests }: Problem, left: Left): number {
  return left.reduce((sum, { at, minutes }) => sum + (tests[at]?.safe === true ? minutes : 0), 0);
}

/** The most entropy that a settled belief over so many findings may still have, in bits. */
function settledEntropy({ settled }: Problem, findings: number): number {
  return entropyBits([settled, 1 - settled]) + (1 - settled) * Math.log2(Math.max(1, findings - 1));
}

function entropyBound(
  belief: Float64Array,
  most: number,
  settled: number,
  rate: number,
  all: number,
): number {
  const excess = entropyBits(belief) - settled;
  if (excess <= 0 || !(rate > 0) || rate === Infinity || all === 0) return 0;
  return Math.min(1, excess / (rate * all + most - settled)) * all;
}

/** Entropy over what the best test tells in a minute. */
function guessed(belief: Float64Array, settled: number, left: Left, rate: number): number {
  const excess = Math.max(0, entropyBits(belief) - settled / 2);
  const all = left.reduce((sum, { minutes }) => sum + minutes, 0);
  return rate > 0 && rate < Infinity ? Math.min(all, (UNCERTAIN_GUESS * excess) / rate) : 0;
}

/** How much longer isolating takes than the bounds say; found by trial on random problems. */
const CERTAIN_GUESS = 1.1;
const UNCERTAIN_GUESS = 1.6;
