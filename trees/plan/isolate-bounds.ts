import { entropyBits } from './information-gain.ts';
import { huffmanLength } from './huffman.ts';
import { moves } from './isolate-end.ts';
import { resultAt } from './marks.ts';
import { startPosition, type Position } from './position.ts';
import { minutesToTell } from './telling.ts';
import type { PlanTest, Problem } from './problem.ts';

/** Least and most expected minutes that isolating can still take, and a guess between the two. */
export interface Bounds {
  readonly lower: number;
  readonly upper: number;
  readonly guess: number;
  /** What it would take if the finding were known. */
  readonly known: number;
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
  const groups = groupsOf(can.length, certain ? useful.filter(({ safe }) => safe) : []);
  const cheapest = problem.tests
    .map(({ minutes }, at) => ({ at, minutes }))
    .filter(({ at }) => isUseful[at])
    .sort((a, b) => a.minutes - b.minutes);
  const safest = cheapest.filter(({ at }) => problem.tests[at]?.safe === true);
  const arity = Math.max(2, ...useful.map(({ results }) => results));
  const rates = useful.map((test) => capacity(test, rows) / test.minutes);
  const rate = rates.some((one) => Number.isNaN(one)) ? Infinity : Math.max(0, ...rates);
  const settled = settledEntropy(problem, rows.length);
  const slowest = slowestMinutes(problem);
  const most = Math.log2(rows.length);
  const tellingMinutes = minutesToTell(problem, settled / 2);
  return {
    boundsAt({ marks, belief }) {
      const upper = inTurn(problem, marks, slowest);
      if (certain) {
        const lower = cheapestOf(cheapest, marks, huffmanLength(leafShares(problem, groups, belief), arity));
        return { lower, upper, guess: Math.min(upper, lower * CERTAIN_GUESS), known: 0 };
      }
      const entropy = entropyBits(belief);
      const all = keepsAll ? cheapestOf(safest, marks, Infinity) : 0;
      const lower = entropyBound(entropy - settled, most - settled, rate, all);
      const minutes = tellingMinutes({ marks, belief });
      return { lower, upper, guess: Math.min(upper, Math.max(lower, minutes)), known: 0 };
    },
  };
}

/** Every test that is left, one after another, with the longest changeovers. */
function inTurn({ tests }: Problem, marks: Uint16Array, slowest: readonly number[]): number {
  let minutes = 0;
  for (let at = 0; at < tests.length; at += 1) {
    const test = tests[at];
    if (test === undefined || (!test.opens && (!test.available || resultAt(marks[at] ?? 0) >= 0))) continue;
    minutes += slowest[at] ?? 0;
  }
  return minutes;
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

type Cheapest = readonly { readonly at: number; readonly minutes: number }[];

/** Minutes of the first so many of the cheapest tests that are left, the last of them in part. */
function cheapestOf(cheapest: Cheapest, marks: Uint16Array, count: number): number {
  let minutes = 0;
  let rest = count;
  for (const one of cheapest) {
    if (rest <= 0) break;
    if (resultAt(marks[one.at] ?? 0) >= 0) continue;
    minutes += one.minutes * Math.min(1, rest);
    rest -= 1;
  }
  return minutes;
}

/** Findings that none of the tests, all of them certain, tells apart, by the number of their group. */
function groupsOf(findings: number, tests: readonly PlanTest[]): Int32Array {
  const keys = new Map<string, number>();
  return Int32Array.from({ length: findings }, (_, row) => {
    let key = '';
    for (const { table, results } of tests)
      for (let result = 0; result < results; result += 1)
        key += table[result * findings + row] === 1 ? '1' : '0';
    const group = keys.get(key) ?? keys.size;
    keys.set(key, group);
    return group;
  });
}

/** The heaviest leaves that a policy can have: each group's share or its heaviest finding's over `settled`, heaviest first, to a sum of one. */
function leafShares({ settled }: Problem, groups: Int32Array, belief: Float64Array): readonly number[] {
  const sums = new Float64Array(belief.length);
  const heaviest = new Float64Array(belief.length);
  for (let row = 0; row < belief.length; row += 1) {
    const share = belief[row] ?? 0;
    const group = groups[row] ?? 0;
    sums[group] = (sums[group] ?? 0) + share;
    if (share > (heaviest[group] ?? 0)) heaviest[group] = share;
  }
  const caps = sums.map((sum, group) => Math.min(1, Math.max(sum, (heaviest[group] ?? 0) / settled))).sort();
  const shares: number[] = [];
  let rest = 1;
  for (let at = caps.length - 1; at >= 0 && rest > ROUNDING; at -= 1) {
    const cap = caps[at] ?? 0;
    if (cap === 0) break;
    shares.push(Math.min(cap, rest));
    rest -= cap;
  }
  return shares;
}

/** What is left of one after taking off shares that sum to it. */
const ROUNDING = 1e-12;

/** The most that a test can tell, in bits, whatever the belief. */
function capacity({ noise, results }: PlanTest, rows: readonly number[]): number {
  return Math.log2(results) - rows.reduce((least, row) => Math.min(least, noise[row] ?? 0), Infinity);
}

/** The most entropy that a settled belief over so many findings may still have, in bits. */
function settledEntropy({ settled }: Problem, findings: number): number {
  return entropyBits([settled, 1 - settled]) + (1 - settled) * Math.log2(Math.max(1, findings - 1));
}

/** `excess` and `spread` are the entropies above a settled belief's: of this belief, and of the widest there is. */
function entropyBound(excess: number, spread: number, rate: number, all: number): number {
  if (excess <= 0 || !(rate > 0) || rate === Infinity || all === 0) return 0;
  return Math.min(1, excess / (rate * all + spread)) * all;
}

/** How much longer isolating takes than the bounds say; found by trial on random problems. */
const CERTAIN_GUESS = 1.1;
