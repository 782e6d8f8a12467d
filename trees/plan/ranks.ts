/** States in waiting, by rank and key; those of the lowest rank go first. */
export interface Ranks<S> {
  /** The state in waiting with this rank and key, made where there is none. */
  readonly at: (rank: number, key: string, make: () => S) => S;
  /** Takes out all states of the lowest rank; undefined where none is left. */
  readonly next: () => readonly S[] | undefined;
}

export function openRanks<S>(): Ranks<S> {
  /** Ranks in waiting, highest first. */
  const order: number[] = [];
  const byRank = new Map<number, Map<string, S>>();
  return {
    at(rank, key, make) {
      let states = byRank.get(rank);
      if (states === undefined) {
        states = new Map();
        byRank.set(rank, states);
        order.splice(placeIn(order, rank), 0, rank);
      }
      const known = states.get(key);
      if (known !== undefined) return known;
      const made = make();
      states.set(key, made);
      return made;
    },
    next() {
      const rank = order.pop();
      if (rank === undefined) return undefined;
      const states = byRank.get(rank) ?? new Map<string, S>();
      byRank.delete(rank);
      return [...states.values()];
    },
  };
}

/** Where in a list, highest first, a rank belongs. */
function placeIn(order: readonly number[], rank: number): number {
  let low = 0;
  let high = order.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((order[middle] ?? 0) > rank) low = middle + 1;
    else high = middle;
  }
  return low;
}
