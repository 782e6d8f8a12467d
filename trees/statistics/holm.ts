/**
 * Chances of several tests corrected for there being several, in the order given: the smallest times their number, the next
 * times one fewer, and so on, none below one before it nor above 1 (Holm 1979, Scand. J. Statist. 6:65-70). Whoever acts on
 * those below 0.05 is wrong about any with a chance of at most 0.05, however the tests hang together.
 */
export function holm(chances: readonly number[]): readonly number[] {
  const corrected = [...chances];
  const ascending = chances.map((chance, index) => ({ chance, index })).sort((a, b) => a.chance - b.chance);
  let least = 0;
  for (const [rank, { chance, index }] of ascending.entries()) {
    least = Math.min(1, Math.max(least, chance * (chances.length - rank)));
    corrected[index] = least;
  }
  return corrected;
}
