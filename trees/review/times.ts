import { BINS, binOf, groupQuantiles, type GroupQuantiles } from '../statistics/index.ts';
import type { Chosen, ChosenBlock } from './choose.ts';
import { NO_TIME } from './fact.ts';
import type { Tally } from './tally.ts';

/** Lengths of time (milliseconds) of those jobs that have one: of a symptom by its code, or of all (null). */
export interface Times {
  readonly jobs: (symptom: number | null) => number;
  readonly sum: (symptom: number | null) => number;
  /** Sum of the squares of what each is off the mean. */
  readonly squares: (symptom: number | null) => number;
  /** Null of none. */
  readonly quartiles: (symptom: number | null) => readonly number[] | null;
}

const QUARTILES = [0.25, 0.5, 0.75];

interface Counts {
  /** By symptom and bin of a time and one. */
  readonly bins: Uint32Array;
  /** By symptom; whole numbers, which have all their digits up to three hundred thousand years. */
  readonly sums: Float64Array;
  /** By symptom, once all blocks have been shown. */
  readonly jobs: Uint32Array;
}

/**
 * The times of a column: counted and summed up as the blocks are shown, and at the end gone through once more for the few among
 * which the quartiles are, so that no copy of them is made.
 */
export function openTimes({ blocks, names }: Chosen, column: 'toFinding' | 'toProof'): Tally<Times> {
  const groups = names.symptoms.length;
  const counts = {
    bins: new Uint32Array(groups * BINS),
    sums: new Float64Array(groups),
    jobs: new Uint32Array(groups),
  };
  return {
    add: (block) => countTimes(counts, column, block),
    result() {
      settle(counts);
      const laid = groupQuantiles({ groups, counts: counts.bins }, QUARTILES);
      const means = counts.sums.map((sum, code) => sum / Math.max(1, counts.jobs[code] ?? 0));
      const squares = new Float64Array(groups);
      for (const block of blocks) {
        layTimes(laid, column, block);
        addSquares(squares, means, column, block);
      }
      const of =
        (numbers: Uint32Array | Float64Array) =>
        (symptom: number | null): number =>
          symptom === null ? sumOf(numbers) : (numbers[symptom] ?? 0);
      return {
        jobs: of(counts.jobs),
        sum: of(counts.sums),
        squares: (symptom) =>
          symptom === null ? squaresOfAll(counts, means, squares) : (squares[symptom] ?? 0),
        quartiles: laid.of,
      };
    },
  };
}

function countTimes(
  { bins, sums }: Counts,
  column: 'toFinding' | 'toProof',
  { columns, rows }: ChosenBlock,
): void {
  const { symptom, [column]: times } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const more = oneMore(times[row] ?? NO_TIME);
    const code = symptom[row] ?? 0;
    const entry = code * BINS + binOf(more);
    bins[entry] = (bins[entry] ?? 0) + 1;
    sums[code] = (sums[code] ?? 0) + more;
  }
}

/**
 * A time and one, 0 for none. Jobs with a time and without come in no order that a processor could foresee, so that to ask
 * which it is at each takes longer than to count all alike.
 */
export function oneMore(time: number): number {
  return (time + 1) >>> 0;
}

/** Takes out the jobs without a time, and the one that each of the others was counted with. */
function settle({ bins, sums, jobs }: Counts): void {
  for (let code = 0; code < sums.length; code += 1) {
    bins[code * BINS] = 0;
    jobs[code] = sumOf(bins.subarray(code * BINS, (code + 1) * BINS));
    sums[code] = (sums[code] ?? 0) - (jobs[code] ?? 0);
  }
}

function sumOf(numbers: Uint32Array | Float64Array): number {
  let sum = 0;
  for (let at = 0; at < numbers.length; at += 1) sum += numbers[at] ?? 0;
  return sum;
}

/** In a pass of its own over what is off the mean, so that no digits cancel; of no time nothing is. */
function addSquares(
  squares: Float64Array,
  means: Float64Array,
  column: 'toFinding' | 'toProof',
  { columns, rows }: ChosenBlock,
): void {
  const { symptom, [column]: times } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const more = oneMore(times[row] ?? NO_TIME);
    const code = symptom[row] ?? 0;
    const off = (more - 1 - (means[code] ?? 0)) * Math.min(more, 1);
    squares[code] = (squares[code] ?? 0) + off * off;
  }
}

/** The squares within the symptoms and those of the symptoms' own means. */
function squaresOfAll({ sums, jobs }: Counts, means: Float64Array, squares: Float64Array): number {
  const mean = sumOf(sums) / Math.max(1, sumOf(jobs));
  return means.reduce((sum, own, code) => sum + (jobs[code] ?? 0) * (own - mean) ** 2, sumOf(squares));
}

function layTimes(
  { next, values }: GroupQuantiles,
  column: 'toFinding' | 'toProof',
  { columns, rows }: ChosenBlock,
): void {
  const { symptom, [column]: times } = columns;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at] ?? 0;
    const more = oneMore(times[row] ?? NO_TIME);
    const entry = (symptom[row] ?? 0) * BINS + binOf(more);
    const place = next[entry] ?? -1;
    if (place < 0) continue;
    values[place] = more - 1;
    next[entry] = place + 1;
  }
}
