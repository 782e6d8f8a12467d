/** Places of a pair: in the former sequence and in the latter. */
export type Pair = readonly [former: number, latter: number];

/** Above so many steps of the search, as for lists of thousands that have nothing in common, what lies between is not paired. */
const MOST_STEPS = 4_000_000;

/**
 * A longest common subsequence of two sequences as pairs of places, rising in both. What both begin and end with is paired
 * without search; what lies between takes former x latter steps, up to a bound.
 */
export function commonPairs<A, B>(
  former: readonly A[],
  latter: readonly B[],
  same: (one: A, other: B) => boolean,
): readonly Pair[] {
  const alike = (one: number, other: number) => same(former[one] as A, latter[other] as B);
  const least = Math.min(former.length, latter.length);
  let head = 0;
  while (head < least && alike(head, head)) head += 1;
  let tail = 0;
  while (tail < least - head && alike(former.length - 1 - tail, latter.length - 1 - tail)) tail += 1;
  const middle = searched(former.length - head - tail, latter.length - head - tail, (one, other) =>
    alike(head + one, head + other),
  );
  return [
    ...Array.from({ length: head }, (_, place): Pair => [place, place]),
    ...middle.map(([one, other]): Pair => [head + one, head + other]),
    ...Array.from({ length: tail }, (_, place): Pair => [
      former.length - tail + place,
      latter.length - tail + place,
    ]),
  ];
}

function searched(rows: number, columns: number, same: (row: number, column: number) => boolean): Pair[] {
  if (rows * columns > MOST_STEPS) return [];
  const width = columns + 1;
  // How many can still be paired from a place of each on.
  const lengths = new Int32Array((rows + 1) * width);
  const at = (row: number, column: number) => lengths[row * width + column] ?? 0;
  const matches = new Uint8Array(rows * columns);
  for (let row = rows - 1; row >= 0; row -= 1) {
    for (let column = columns - 1; column >= 0; column -= 1) {
      const match = same(row, column);
      matches[row * columns + column] = match ? 1 : 0;
      lengths[row * width + column] = match
        ? at(row + 1, column + 1) + 1
        : Math.max(at(row + 1, column), at(row, column + 1));
    }
  }
  const pairs: Pair[] = [];
  for (let row = 0, column = 0; row < rows && column < columns;) {
    if (matches[row * columns + column] === 1) {
      pairs.push([row, column]);
      row += 1;
      column += 1;
    } else if (at(row + 1, column) >= at(row, column + 1)) row += 1;
    else column += 1;
  }
  return pairs;
}

/**
 * Those of `wanted` that may stay where they are while the others are moved, as few as can be, so that `held` comes into the
 * order of `wanted`. Both hold the same ids; a longest rising subsequence, n log n.
 */
export function stayingOf(held: readonly string[], wanted: readonly string[]): ReadonlySet<string> {
  const places = new Map(held.map((id, place) => [id, place]));
  const values = wanted.map((id) => places.get(id) ?? -1);
  const ends: number[] = [];
  const before: number[] = [];
  values.forEach((value, index) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[ends[middle] ?? 0] ?? 0) < value) low = middle + 1;
      else high = middle;
    }
    before[index] = ends[low - 1] ?? -1;
    ends[low] = index;
  });
  const staying = new Set<string>();
  for (let index = ends.at(-1) ?? -1; index >= 0; index = before[index] ?? -1) {
    const id = wanted[index];
    if (id !== undefined) staying.add(id);
  }
  return staying;
}
