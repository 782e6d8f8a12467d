/**
 * The mean length of a Huffman code over messages of these weights, in symbols of an alphabet of `arity` letters: the
 * least expected number of tests with `arity` results each that tells the messages apart (Huffman 1952, Proc. IRE
 * 40:1098-1101; Zimmerman 1959, Amer. Math. Monthly 66:690-693). Weights need not sum to one: the length is per unit of
 * their sum. 0 for one message or none.
 */
export function huffmanLength(weights: readonly number[], arity = 2): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return total > 0 ? joinedWeight(weights, arity) / total : 0;
}

/** The sum of all joined weights, which is the sum of weight times length. */
function joinedWeight(weights: readonly number[], arity: number): number {
  const leaves = weights.filter((weight) => weight > 0).sort((a, b) => a - b);
  if (leaves.length < 2) return 0;
  // The first join takes fewer, so that every later one can take `arity`.
  let taking = ((leaves.length - 2) % (arity - 1)) + 2;
  const joined: number[] = [];
  let leaf = 0;
  let join = 0;
  let sum = 0;
  while (leaves.length - leaf + joined.length - join > 1) {
    let weight = 0;
    for (let taken = 0; taken < taking; taken += 1) {
      const fromLeaves = leaves[leaf] ?? Infinity;
      const fromJoined = joined[join] ?? Infinity;
      if (fromLeaves <= fromJoined) leaf += 1;
      else join += 1;
      weight += Math.min(fromLeaves, fromJoined);
    }
    joined.push(weight);
    sum += weight;
    taking = arity;
  }
  return sum;
}
