import { BINS } from './bins.ts';
import { valuesAt } from './values-at.ts';

/** How many whole numbers of each group are in each bin: entry group x BINS + bin (`binOf`). */
export interface GroupBins {
  readonly groups: number;
  readonly counts: Uint32Array;
}

/** What a second pass lays out for quantiles that can be asked for after it. */
export interface GroupQuantiles {
  /** By group and bin, where in `values` the next of its numbers goes, one further each time; -1 where it need not be kept. */
  readonly next: Int32Array;
  readonly values: Uint32Array;
  /** Of a group, or of all numbers of all groups; null of none. */
  readonly of: (group: number | null) => readonly number[] | null;
}

/**
 * The same as `quantiles` of many groups of whole numbers and of all of them, in two passes over the numbers wherever they are:
 * the first counts them by bin, the second keeps those of the few bins that hold a quantile. `shares` ascend.
 */
export function groupQuantiles({ groups, counts }: GroupBins, shares: readonly number[]): GroupQuantiles {
  const all = sumOfGroups(groups, counts);
  const binsOf = (group: number | null): Uint32Array =>
    group === null ? all : counts.subarray(group * BINS, (group + 1) * BINS);
  const entries = Array.from({ length: groups }, (_, group) => placesOf(binsOf(group), shares));
  const ofAll = placesOf(all, shares);
  const next = new Int32Array(groups * BINS).fill(-1);
  const kept = layOut({ groups, counts }, entries, ofAll, next);
  const values = new Uint32Array(kept);
  const valuesIn = (group: number | null, bin: number): Uint32Array => {
    // Those of a bin stand group by group; by now each group's next place is the one after its last.
    const entry = (group ?? 0) * BINS + bin;
    const start = (next[entry] ?? 0) - (counts[entry] ?? 0);
    return values.subarray(start, start + (binsOf(group)[bin] ?? 0));
  };
  return {
    next,
    values,
    of(group) {
      const places = group === null ? ofAll : (entries[group] ?? []);
      if (places.length === 0) return null;
      return places.map(({ below, above, part }) => {
        const [low, high] =
          below.bin === above.bin
            ? valuesAt(valuesIn(group, below.bin), [below.rank, above.rank])
            : [below, above].flatMap(({ bin, rank }) => valuesAt(valuesIn(group, bin), [rank]));
        return (low ?? 0) + part * ((high ?? 0) - (low ?? 0));
      });
    },
  };
}

/** A bin, and the rank within it. */
interface Place {
  readonly bin: number;
  readonly rank: number;
}

/** The places that a quantile lies between, and how far on the way from one to the other. */
interface Between {
  readonly below: Place;
  readonly above: Place;
  readonly part: number;
}

/** Empty where the bins are. */
function placesOf(bins: Uint32Array, shares: readonly number[]): readonly Between[] {
  let last = -1;
  for (let at = 0; at < BINS; at += 1) last += bins[at] ?? 0;
  if (last < 0) return [];
  let [bin, before] = [0, 0];
  const placeOf = (rank: number): Place => {
    // Between one number and the next there may be several quantiles, each of which begins below.
    if (rank < before) [bin, before] = [0, 0];
    while (rank >= before + (bins[bin] ?? Infinity)) {
      before += bins[bin] ?? 0;
      bin += 1;
    }
    return { bin, rank: rank - before };
  };
  return shares.map((share) => {
    const position = last * share;
    const below = placeOf(Math.floor(position));
    return { below, above: placeOf(Math.ceil(position)), part: position - Math.floor(position) };
  });
}

function sumOfGroups(groups: number, counts: Uint32Array): Uint32Array {
  const all = new Uint32Array(BINS);
  for (let group = 0; group < groups; group += 1) {
    const first = group * BINS;
    for (let bin = 0; bin < BINS; bin += 1) all[bin] = (all[bin] ?? 0) + (counts[first + bin] ?? 0);
  }
  return all;
}

/** Gives each group's bins that hold a quantile their places, bin by bin; gives how many there are in all. */
function layOut(
  { groups, counts }: GroupBins,
  entries: readonly (readonly Between[])[],
  ofAll: readonly Between[],
  next: Int32Array,
): number {
  const isWanted = new Set(ofAll.flatMap(binsAt));
  const wanting = entries.map((places) => new Set(places.flatMap(binsAt)));
  const bins = new Set([...isWanted, ...wanting.flatMap((some) => [...some])]);
  let kept = 0;
  for (const bin of bins) {
    for (let group = 0; group < groups; group += 1) {
      if (!isWanted.has(bin) && wanting[group]?.has(bin) !== true) continue;
      const entry = group * BINS + bin;
      next[entry] = kept;
      kept += counts[entry] ?? 0;
    }
  }
  return kept;
}

function binsAt({ below, above }: Between): readonly number[] {
  return [below.bin, above.bin];
}
