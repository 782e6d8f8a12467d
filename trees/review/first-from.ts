/** Where in ascending numbers the first one stands that is no smaller than the wanted one; their count where none is. */
export function firstFrom(ascending: Float64Array, wanted: number): number {
  let [low, high] = [0, ascending.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((ascending[middle] ?? Infinity) < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}
