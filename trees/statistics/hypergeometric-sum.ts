import { chanceOfNoLikelier } from './discrete.ts';
import { hypergeometric } from './hypergeometric.ts';
import type { TwoByTwo } from './two-by-two.ts';

/** A chance that is less than this share of the greatest leaves no trace in what is told of them. */
const TRACE = 1e-20;

// All sums are made in this memory: some ten thousand arrays a question would have the heap grow to hold them.
let held = new Float64Array(256);
let made = new Float64Array(256);
let one = new Float64Array(256);

/**
 * The chance, were rows and columns independent in every table, of a sum of their first cells that is no likelier than `count`: the
 * sum of independent hypergeometric numbers, made table by table, without the ends that leave no trace. 0 where it is below 1e-18.
 */
export function chanceOfSum(tables: readonly TwoByTwo[], count: number): number {
  let [first, length] = [0, 1];
  held[0] = 1;
  for (const table of tables) {
    const { low, high, mode, ratio } = hypergeometric(table);
    if (low === high) {
      first += low;
      continue;
    }
    const below = layBelow(mode - low, (step) => 1 / ratio(mode - step - 1));
    const more = layAbove(below, high - mode, (step) => ratio(mode + step));
    convolve(length, more);
    const [from, to] = [traceFrom(length + more - 1), traceTo(length + more - 1)];
    held = roomFor(held, to - from + 1);
    for (let at = from; at <= to; at += 1) held[at - from] = made[at] ?? 0;
    first += mode - below + from;
    length = to - from + 1;
  }
  return chanceOfNoLikelier({ first, chances: held.subarray(0, length) }, count);
}

/** Lays the chances, that of the mode being 1, of numbers below it at the beginning; of how many. */
function layBelow(steps: number, factor: (step: number) => number): number {
  let count = 0;
  for (let weight = 1; count < steps; count += 1) {
    weight *= factor(count);
    if (weight < TRACE) break;
    one = roomFor(one, count + 1);
    one[count] = weight;
  }
  one.subarray(0, count).reverse();
  return count;
}

/** Lays the mode and what is above it behind those; of how many there are in all, which then sum to one. */
function layAbove(below: number, steps: number, factor: (step: number) => number): number {
  let length = below + 1;
  one = roomFor(one, length);
  one[below] = 1;
  for (let [step, weight] = [0, 1]; step < steps; step += 1) {
    weight *= factor(step);
    if (weight < TRACE) break;
    one = roomFor(one, length + 1);
    one[length] = weight;
    length += 1;
  }
  let total = 0;
  for (let at = 0; at < length; at += 1) total += one[at] ?? 0;
  for (let at = 0; at < length; at += 1) one[at] = (one[at] ?? 0) / total;
  return length;
}

/** Makes the chances of the sum of what is held and of the one. */
function convolve(length: number, more: number): void {
  made = roomFor(made, length + more - 1);
  made.fill(0, 0, length + more - 1);
  for (let at = 0; at < length; at += 1) {
    const chance = held[at] ?? 0;
    for (let by = 0; by < more; by += 1) made[at + by] = (made[at + by] ?? 0) + chance * (one[by] ?? 0);
  }
}

function traceFrom(length: number): number {
  const least = leastOf(length);
  let from = 0;
  while ((made[from] ?? 0) < least) from += 1;
  return from;
}

function traceTo(length: number): number {
  const least = leastOf(length);
  let to = length - 1;
  while ((made[to] ?? 0) < least) to -= 1;
  return to;
}

function leastOf(length: number): number {
  let most = 0;
  for (let at = 0; at < length; at += 1) most = Math.max(most, made[at] ?? 0);
  return most * TRACE;
}

/** The same memory where it has room for so many, else more of it with what it holds. */
function roomFor(memory: Float64Array<ArrayBuffer>, length: number): Float64Array<ArrayBuffer> {
  if (memory.length >= length) return memory;
  const grown = new Float64Array(2 * length);
  grown.set(memory);
  return grown;
}
