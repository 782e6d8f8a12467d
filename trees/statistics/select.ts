/** Ranges longer than this are narrowed by a sample first. */
const LONG = 600;

/**
 * The value that would stand at `rank` (0..length - 1) were the values sorted. Reorders them so that it does, with none
 * larger before it and none smaller after it (Floyd & Rivest 1975, Algorithm 489, Comm. ACM 18:173).
 */
export function select(values: Float64Array | Uint32Array, rank: number): number {
  narrow(values, rank, 0, values.length - 1);
  return valueAt(values, rank);
}

function narrow(values: Float64Array | Uint32Array, rank: number, first: number, last: number): void {
  let [left, right] = [first, last];
  while (right > left) {
    if (right - left > LONG) {
      const sample = sampleAbout(rank, left, right);
      narrow(values, rank, sample.from, sample.to);
    }
    const split = partition(values, rank, left, right);
    if (split <= rank) left = split + 1;
    if (rank <= split) right = split - 1;
  }
}

/** Where in the range a sample is put in order, so that its value at `rank` is likely to split the rest near there. */
function sampleAbout(
  rank: number,
  left: number,
  right: number,
): { readonly from: number; readonly to: number } {
  const length = right - left + 1;
  const before = rank - left + 1;
  const log = Math.log(length);
  const size = 0.5 * Math.exp((2 * log) / 3);
  const spread = 0.5 * Math.sqrt((log * size * (length - size)) / length) * Math.sign(before - length / 2);
  return {
    from: Math.max(left, Math.floor(rank - (before * size) / length + spread)),
    to: Math.min(right, Math.floor(rank + ((length - before) * size) / length + spread)),
  };
}

/** Puts what is smaller than the value at `rank` before it and what is larger after it; gives where it has come to stand. */
function partition(values: Float64Array | Uint32Array, rank: number, left: number, right: number): number {
  const pivot = valueAt(values, rank);
  swap(values, left, rank);
  const atRight = valueAt(values, right) > pivot;
  if (atRight) swap(values, left, right);
  let [up, down] = [left, right];
  while (up < down) {
    swap(values, up, down);
    up++;
    down--;
    while (valueAt(values, up) < pivot) up++;
    while (valueAt(values, down) > pivot) down--;
  }
  if (valueAt(values, left) === pivot) {
    swap(values, left, down);
    return down;
  }
  down++;
  swap(values, down, right);
  return down;
}

function valueAt(values: Float64Array | Uint32Array, index: number): number {
  return values[index] ?? 0;
}

function swap(values: Float64Array | Uint32Array, a: number, b: number): void {
  const kept = valueAt(values, a);
  values[a] = valueAt(values, b);
  values[b] = kept;
}
