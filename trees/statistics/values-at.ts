/** Up to so many values, sorting a copy costs less than two passes over tables. */
const FEW = 4096;
/** Coarse bins, as a power of two: their table fits a processor's second cache. */
const COARSE = 14;

/** The values that would stand at `ranks` (0..length - 1) were all sorted, in the order asked for; they are left as they are. */
export function valuesAt(values: Uint32Array | Float64Array, ranks: readonly number[]): readonly number[] {
  if (values instanceof Uint32Array && values.length > FEW) return countedAt(values, ranks);
  const sorted = values.slice().sort();
  return ranks.map((rank) => sorted[rank] ?? 0);
}

/**
 * Two passes, whatever the values are: the first counts them by their leading bits, which tells the bin that each rank is
 * in; the second counts by the other bits within those bins alone.
 */
function countedAt(values: Uint32Array, ranks: readonly number[]): readonly number[] {
  const shift = Math.max(0, 32 - Math.clz32(largestOf(values)) - COARSE);
  const coarse = new Uint32Array(1 << COARSE);
  for (let index = 0; index < values.length; index++) {
    const bin = (values[index] ?? 0) >>> shift;
    coarse[bin] = (coarse[bin] ?? 0) + 1;
  }
  const places = ranks.map((rank) => placeOf(rank, coarse));
  const fine = fineCounts(values, shift, [...new Set(places.map(({ bin }) => bin))]);
  return places.map(({ bin, rank }) => {
    const within = placeOf(rank, fine.get(bin) ?? new Uint32Array(1));
    return bin * 2 ** shift + within.bin;
  });
}

/** Counts by the last `shift` bits of the values that are in each of the bins. */
function fineCounts(
  values: Uint32Array,
  shift: number,
  bins: readonly number[],
): ReadonlyMap<number, Uint32Array> {
  const width = 1 << shift;
  const offsets = new Int32Array(1 << COARSE).fill(-1);
  bins.forEach((bin, index) => (offsets[bin] = index * width));
  const counts = new Uint32Array(bins.length * width);
  for (let index = 0; index < values.length; index++) {
    const value = values[index] ?? 0;
    const offset = offsets[value >>> shift] ?? -1;
    if (offset < 0) continue;
    const at = offset + (value & (width - 1));
    counts[at] = (counts[at] ?? 0) + 1;
  }
  return new Map(bins.map((bin, index) => [bin, counts.subarray(index * width, (index + 1) * width)]));
}

/** The bin that holds a rank, and the rank's place within it. */
function placeOf(rank: number, counts: Uint32Array): { readonly bin: number; readonly rank: number } {
  let left = rank;
  for (let bin = 0; bin < counts.length; bin++) {
    const count = counts[bin] ?? 0;
    if (left < count) return { bin, rank: left };
    left -= count;
  }
  return { bin: 0, rank: 0 };
}

function largestOf(values: Uint32Array): number {
  let largest = 0;
  for (let index = 0; index < values.length; index++) {
    const value = values[index] ?? 0;
    if (value > largest) largest = value;
  }
  return largest;
}
