/** Entries that are sorted or put together at a time. */
const AT_ONCE = 256;

/**
 * Sorts a list bit by bit, for those who have something else to do in between: pauses after some hundred entries at most, giving how
 * many were gone through since, and gives the sorted list in the end. Entries that are level keep their order. `compare` as for an array's `sort`.
 */
export function* sortInBits<T>(
  list: readonly T[],
  compare: (one: T, other: T) => number,
): Generator<number, readonly T[], void> {
  let runs: T[][] = [];
  for (let from = 0; from < list.length; from += AT_ONCE) {
    const run = list.slice(from, from + AT_ONCE).sort(compare);
    runs.push(run);
    yield run.length;
  }
  while (runs.length > 1) {
    const merged: T[][] = [];
    for (let at = 0; at < runs.length; at += 2)
      merged.push(yield* merge(runs[at] ?? [], runs[at + 1] ?? [], compare));
    runs = merged;
  }
  return runs[0] ?? [];
}

function* merge<T>(
  left: readonly T[],
  right: readonly T[],
  compare: (one: T, other: T) => number,
): Generator<number, T[], void> {
  const merged: T[] = [];
  let [l, r] = [0, 0];
  while (l < left.length && r < right.length) {
    if (merged.length % AT_ONCE === AT_ONCE - 1) yield AT_ONCE;
    const [first, second] = [left[l] as T, right[r] as T];
    if (compare(first, second) <= 0) {
      merged.push(first);
      l += 1;
    } else {
      merged.push(second);
      r += 1;
    }
  }
  return [...merged, ...left.slice(l), ...right.slice(r)];
}
